import { type Check, hearPluck, type PluckReading } from '#shared/hearing/index.ts';
import { pluckedAtOf } from '#shared/matching/index.ts';
import type { PitchFrame } from '#shared/pitch/index.ts';

/** What a strum left to be plucked: the courses by name, the next one first, and when it was read, on the clock of the frames. */
export type LeftToPluck = { readonly check: Check; readonly unclear: readonly number[]; readonly strumReadAtSeconds: number };

/**
 * Takes one frame while courses are asked for by name that a strum did not tell. What rings on from the strum is none of them; the next pluck is the
 * first of them, where several could be meant.
 */
export function hearLeft(
  { check, unclear, strumReadAtSeconds }: LeftToPluck,
  frame: PitchFrame,
): Pick<LeftToPluck, 'check' | 'unclear'> & { readonly reading: PluckReading | null } {
  const pluckedAt = pluckedAtOf(frame);
  if (pluckedAt === null || pluckedAt < strumReadAtSeconds) return { check, unclear, reading: null };
  const heard = hearPluck({ ...check, asked: unclear }, frame);
  const { reading } = heard;
  return {
    check: { ...heard.check, asked: [] },
    unclear: reading === null ? unclear : unclear.filter((course) => course !== reading.course),
    reading,
  };
}
