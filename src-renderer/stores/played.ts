import { type Check, hearPluck, startCheck } from '#shared/hearing/index.ts';
import { type SpelledPitch, spellTogether } from '#shared/music/index.ts';
import type { PitchFrame } from '#shared/pitch/index.ts';
import { centsBetween, type Hertz, hertz, hertzToMidi } from '#shared/units/index.ts';

/** One course as it was played: its pitch in hertz, and how sure that is, in cents. */
export type HeardCourse = { readonly hertz: Hertz; readonly sigmaCents: number };

/** A tuning that is being played in, one course after the other from the player's eye. */
export type Played = {
  /** How many courses there are. */
  readonly courses: number;
  readonly heard: readonly HeardCourse[];
  /** The last pluck sounded like the course before it; null where it did not. */
  readonly repeated: HeardCourse | null;
  readonly pluck: Check;
  readonly lastHertz: number | null;
};

const untouched: Check = startCheck([], []);
/** A pitch that jumps further than this between two frames is another string, in cents (own choice). */
const jumpCents = 60;
/** Two plucks nearer than this are one course played again, unless the player says otherwise, in cents (own choice). */
const againCents = 25;

/** Nothing is played yet on an instrument of so many courses. */
export const startPlayed = (courses: number): Played => ({ courses, heard: [], repeated: null, pluck: untouched, lastHertz: null });

/** Takes one frame: whatever sounds steadily is the next course. A course that is played again is not taken for the next one. */
export function hearPlayed(played: Played, frame: PitchFrame): Played {
  if (played.heard.length === played.courses) return played;
  const isJump = played.lastHertz !== null && Math.abs(centsBetween(hertz(frame.hertz), hertz(played.lastHertz))) > jumpCents;
  const here = [[frame.hertz]];
  const { check: pluck, reading } = hearPluck({ present: here, wanted: here, pluck: isJump ? null : played.pluck.pluck, asked: [] }, frame);
  const next = { ...played, pluck, lastHertz: frame.hertz };
  if (reading === null) return next;
  const course: HeardCourse = { hertz: hertz(reading.hertz), sigmaCents: reading.sigmaCents };
  const before = played.heard.at(-1);
  const isAgain = before !== undefined && Math.abs(centsBetween(course.hertz, before.hertz)) < againCents;
  return isAgain ? { ...next, repeated: course } : { ...next, heard: [...played.heard, course], repeated: null };
}

/** The course that sounded like the one before it is the next one after all. */
export const takeRepeated = (played: Played): Played =>
  played.repeated === null ? played : { ...played, heard: [...played.heard, played.repeated], repeated: null };

/** Forgets the last course that was heard. */
export const forgetLast = (played: Played): Played => ({ ...played, heard: played.heard.slice(0, -1), repeated: null });

/** What was heard as pitches spelled together, and how far each course lies from its pitch in cents. Empty before anything was heard. */
export function playedPitches(
  heard: readonly HeardCourse[],
  reference: Hertz,
): { readonly pitches: readonly SpelledPitch[]; readonly offsetCents: readonly number[] } {
  const exact = heard.map((course) => hertzToMidi(course.hertz, reference));
  const numbers = exact.map(Math.round);
  return {
    pitches: numbers.length === 0 ? [] : spellTogether(numbers),
    offsetCents: exact.map((number, course) => {
      const cents = 100 * (number - (numbers[course] ?? number));
      return (heard[course]?.sigmaCents ?? 1) < 0.3 ? Math.round(cents * 10) / 10 : Math.round(cents);
    }),
  };
}
