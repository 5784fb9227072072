import { matchFrame, type Strings } from '#shared/matching/index.ts';
import { type Frame, hearSteady, isNewPluck, type Steady } from './steady.ts';

/** One trusted measurement of one string from one pluck. */
export type PluckReading = {
  readonly course: number;
  readonly string: number;
  readonly atSeconds: number;
  readonly hertz: number;
  readonly sigmaCents: number;
};

type Pluck = Steady & { readonly course: number; readonly string: number };

/** An instrument being checked: where its strings are and are wanted, per course and string, in hertz. */
export type Check = { readonly present: Strings; readonly wanted: Strings; readonly pluck: Pluck | null };

/** Begins a check. */
export const startCheck = (present: Strings, wanted: Strings): Check => ({ present, wanted, pluck: null });

/**
 * Takes one frame. Gives a reading once a pluck, when its pitch has stood still for long enough; frames that belong to no course, or could belong to
 * several, are passed over.
 */
export function hearPluck(check: Check, frame: Frame): { readonly check: Check; readonly reading: PluckReading | null } {
  const match = matchFrame(frame.hertz, { present: check.present, wanted: check.wanted, asked: null });
  if (!frame.steady || match.kind === 'unknown') return { check, reading: null };
  const { course, string } = match;
  const before = check.pluck;
  const isSame = before !== null && before.course === course && before.string === string && !isNewPluck(before, frame);
  const { pluck, pitch } = hearSteady(isSame ? before : null, frame);
  const reading = pitch === null ? null : { course, string, atSeconds: frame.atSeconds, ...pitch };
  return { check: { ...check, pluck: { ...pluck, course, string } }, reading };
}
