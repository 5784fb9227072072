import { distance, pitchMidi, type SpelledInterval, type SpelledPitch, transpose } from '#shared/music/index.ts';
import type { OpenPitches } from './moves.ts';
import type { Tuning } from './tuning.ts';

/** A tuning taken over to another home: its pitches there, and whether chord shapes stay what they were. */
export type Carried = { readonly pitches: OpenPitches; readonly sameShapes: boolean };

/** Why a tuning can't be taken over. `course` counts from the player's eye, from 0. */
export type DoesNotApply =
  | { readonly doesNotApply: 'other number of courses'; readonly writtenFor: number; readonly here: number }
  | { readonly doesNotApply: 'strings of a course move apart'; readonly course: number };

type Written = { readonly courses: readonly Pick<Tuning['courses'][number], 'pitches'>[]; readonly home: OpenPitches };

/**
 * Takes a tuning over to an instrument by its moves from home, or says why not: a drop of the 4th course stays a drop of the 4th course. Defined where
 * both have as many courses; a course with another number of strings moves as a whole. Shapes are the same where the homes are one another's
 * transposition, the octave of a course apart aside (high G and low G).
 * Down a semitone on course 2 of `G4 C4 E4 A4`, carried to `D3 G3 B3 E4` → `D3 G3 Bb3 E4`.
 */
export function carryOrWhy(tuning: Written, home: OpenPitches): Carried | DoesNotApply {
  const writtenFor = tuning.home.length;
  if (writtenFor !== home.length || tuning.courses.length !== writtenFor)
    return { doesNotApply: 'other number of courses', writtenFor, here: home.length };
  const pitches: OpenPitches[number][] = [];
  for (const [course, there] of home.entries()) {
    const moves = courseMoves(tuning, course);
    const [whole = null] = moves;
    const isWhole = moves.every((move) => move === whole);
    if (whole === null || (moves.length !== there.length && !isWhole)) return { doesNotApply: 'strings of a course move apart', course };
    pitches.push(there.map((pitch, string) => transpose(pitch, isWhole ? whole : (moves[string] ?? whole))));
  }
  const shape = homeShape(tuning.home);
  return { pitches, sameShapes: shape !== null && shape === homeShape(home) };
}

/** The same where the reason does not matter; null where the tuning does not apply. */
export function carry(tuning: Written, home: OpenPitches): Carried | null {
  const carried = carryOrWhy(tuning, home);
  return 'doesNotApply' in carried ? null : carried;
}

/** The move of each string of a course from home. */
const courseMoves = (tuning: Written, course: number): readonly SpelledInterval[] =>
  (tuning.home[course] ?? []).flatMap((from, string) => {
    const to = tuning.courses[course]?.pitches[string];
    return to === undefined ? [] : [distance(from, to)];
  });

/**
 * What decides the chord shapes of a home, octaves aside: how far each course is from the first. Null where the strings of a course are not
 * octaves of one another. `G4 C4 E4 A4` and `D3 G3 B3 E4` → `0 5 9 2`.
 */
export function homeShape(home: OpenPitches): string | null {
  const first = home[0]?.[0];
  if (first === undefined) return null;
  const above = (pitch: SpelledPitch): number => (((pitchMidi(pitch) - pitchMidi(first)) % 12) + 12) % 12;
  const classes = home.map(([lead = first]) => above(lead));
  return home.every((strings, course) => strings.every((pitch) => above(pitch) === classes[course])) ? classes.join(' ') : null;
}
