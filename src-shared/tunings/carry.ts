import { distance, semitonesBetween, transpose } from '#shared/music/index.ts';
import type { OpenPitches } from './moves.ts';
import type { Tuning } from './tuning.ts';

/** A tuning taken over to another home: its pitches there, and whether chord shapes stay what they were. */
export type Carried = { readonly pitches: OpenPitches; readonly sameShapes: boolean };

/**
 * Takes a tuning over to an instrument by its moves from home: a drop of the 4th course stays a drop of the 4th course.
 * Null where the other home has other courses or strings. Shapes are the same where the homes are one another's transposition,
 * the octave of a course apart aside (high G and low G).
 * Down a semitone on course 2 of `G4 C4 E4 A4`, carried to `D3 G3 B3 E4` → `D3 G3 Bb3 E4`.
 */
export function carry(tuning: Pick<Tuning, 'courses' | 'home'>, home: OpenPitches): Carried | null {
  if (tuning.home.length !== home.length) return null;
  const pitches: OpenPitches[number][] = [];
  const apart: number[] = [];
  for (const [course, strings] of tuning.home.entries()) {
    const wanted = tuning.courses[course]?.pitches;
    const there = home[course];
    if (wanted === undefined || there === undefined || there.length !== strings.length) return null;
    pitches.push(
      there.map((pitch, string) => {
        const [from, to] = [strings[string], wanted[string]];
        return from === undefined || to === undefined ? pitch : transpose(pitch, distance(from, to));
      }),
    );
    for (const [string, pitch] of there.entries()) {
      const from = strings[string];
      if (from !== undefined) apart.push(((semitonesBetween(from, pitch) % 12) + 12) % 12);
    }
  }
  return { pitches, sameShapes: new Set(apart).size === 1 };
}
