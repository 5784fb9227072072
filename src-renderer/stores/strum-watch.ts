import type { StrumHeard } from '#shared/guidance/index.ts';
import { pluckedAtOf } from '#shared/matching/index.ts';
import type { PitchEvent } from '#shared/pitch/index.ts';

/** A strum that is waited for. Plucks before `fromSeconds` do not count; `beganAtSeconds` is null until one was heard. */
export type StrumWatch = {
  readonly fromSeconds: number;
  readonly beganAtSeconds: number | null;
  /** Sounds so far that were no strum of all strings. */
  readonly misses: number;
};

/** How long a strum rings before it is read, and how much of it is read, in seconds: the strings of a double course are told apart by their beat. */
const single = { afterSeconds: 1.4, lastSeconds: 1.3 };
const double = { afterSeconds: 2.3, lastSeconds: 2 };

/** A pluck heard so soon after the question was still meant for the string before, in seconds. */
const stillBefore = 0.15;
/** So many sounds that were no strum, then the courses are plucked. */
const mostMisses = 2;

/** Waits for a strum from a moment on, on the clock of the events. */
export const awaitStrum = (fromSeconds: number): StrumWatch => ({ fromSeconds, beganAtSeconds: null, misses: 0 });

/** How long a strum of these strings has to ring, and how much of it is read, in seconds. */
export const strumRings = (strings: readonly (readonly unknown[])[]) => (strings.some((course) => course.length > 1) ? double : single);

/** Takes one event of the tracker. `isReady` = the strum has rung for `afterSeconds` and can be read. */
export function watchStrum(
  watch: StrumWatch,
  event: PitchEvent,
  { afterSeconds }: Pick<typeof single, 'afterSeconds'>,
): { readonly watch: StrumWatch; readonly isReady: boolean } {
  const { beganAtSeconds } = watch;
  if (beganAtSeconds !== null && event.kind === 'refusal' && event.reason === 'silence')
    return { watch: missed(watch, event), isReady: false };
  if (beganAtSeconds !== null) return { watch, isReady: event.atSeconds - beganAtSeconds >= afterSeconds };
  const pluckedAt = beginningOf(event);
  if (pluckedAt === null || pluckedAt < watch.fromSeconds + stillBefore) return { watch, isReady: false };
  return { watch: { ...watch, beganAtSeconds: pluckedAt }, isReady: false };
}

function beginningOf(event: PitchEvent): number | null {
  if (event.kind === 'frame') return pluckedAtOf(event);
  return event.reason === 'attack' ? event.atSeconds : null;
}

/** What sounded was no strum: it is waited for anew. */
export const missed = (watch: StrumWatch, { atSeconds }: Pick<PitchEvent, 'atSeconds'>): StrumWatch => ({
  fromSeconds: atSeconds,
  beganAtSeconds: null,
  misses: watch.misses + 1,
});

/** Whether what was read is a strum at all: one string by itself, or a knock, is none. After two such sounds whatever was heard is taken. */
export function isStrum({ misses }: StrumWatch, heard: StrumHeard): boolean {
  const strings = heard.flat();
  return misses >= mostMisses || strings.filter((one) => 'hertz' in one).length * 2 >= Math.min(strings.length, 4);
}
