import { distance, pitchMidi, semitonesBetween, type SpelledInterval, type SpelledPitch, spellTogether } from '#shared/music/index.ts';
import { type Cents, centsBetween, type Hertz, hertzToMidi } from '#shared/units/index.ts';

/** Open pitches per course and per string, from the player's eye down. */
export type OpenPitches = readonly (readonly SpelledPitch[])[];

/** What one course needs to get from where it is to where it is wanted. `course` counts from the player's eye, from 0. */
export type Move = {
  readonly course: number;
  readonly from: readonly SpelledPitch[];
  readonly to: readonly SpelledPitch[];
  /** Of the course's first string; a unison where it stays. */
  readonly interval: SpelledInterval;
  /** Of the string that moves furthest; positive = tighten. 0 where the course stays. */
  readonly semitones: number;
};

/**
 * The moves from one set of open pitches to another, a row a course, those that stay among them.
 * Throws RangeError where the two do not have the same courses and strings.
 */
export function movesBetween(from: OpenPitches, to: OpenPitches): readonly Move[] {
  if (from.length !== to.length) throw new RangeError(`${from.length} courses cannot be moved to ${to.length}`);
  return from.map((strings, course) => {
    const wanted = to[course];
    const [first] = strings;
    const [firstWanted] = wanted ?? [];
    if (wanted === undefined || first === undefined || firstWanted === undefined || strings.length !== wanted.length) {
      throw new RangeError(`course ${course} has other strings in the two tunings`);
    }
    const steps = strings.map((pitch, string) => semitonesBetween(pitch, wanted[string] ?? firstWanted));
    const furthest = steps.reduce((most, step) => (Math.abs(step) > Math.abs(most) ? step : most), 0);
    return { course, from: strings, to: wanted, interval: distance(first, firstWanted), semitones: furthest };
  });
}

/** A move from where a course is heard; `from` is the pitch nearest to it, `cents` how far each string has to go, positive = tighten. */
export type PresentMove = Move & { readonly cents: readonly Cents[] };

/**
 * The moves from where the strings are, in hertz per course and string, to a tuning: `to` as pitches and `wanted` in hertz (its offsets taken in).
 * A string within half a semitone of its pitch is called by that pitch. Throws RangeError where the two do not have the same courses and strings.
 */
export function movesFromPresent(
  present: readonly (readonly Hertz[])[],
  to: OpenPitches,
  wanted: readonly (readonly Hertz[])[],
  reference: Hertz,
): readonly PresentMove[] {
  const numbers = present.map((strings) => strings.map((heard) => Math.round(hertzToMidi(heard, reference))));
  const names = [...spellTogether(numbers.flat())];
  const from = numbers.map((strings, course) =>
    strings.flatMap((number, string) => {
      const there = to[course]?.[string];
      const name = names.shift();
      return there !== undefined && pitchMidi(there) === number ? [there] : name === undefined ? [] : [name];
    }),
  );
  return movesBetween(from, to).map((move, course) => ({
    ...move,
    cents: (present[course] ?? []).map((heard, string) => centsBetween(wanted[course]?.[string] ?? heard, heard)),
  }));
}

/**
 * The order in which courses are turned (common practice): loosening first, then tightening, the largest move first in each,
 * so that the neck carries least while the work is done. Courses that stay are left out.
 */
export const moveOrder = (semitones: readonly number[]): readonly number[] =>
  semitones
    .map((step, course) => ({ step, course }))
    .filter(({ step }) => step !== 0)
    .sort((a, b) => Number(a.step > 0) - Number(b.step > 0) || Math.abs(b.step) - Math.abs(a.step) || a.course - b.course)
    .map(({ course }) => course);
