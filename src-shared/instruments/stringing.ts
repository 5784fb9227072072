import { pitchMidi, type SpelledPitch } from '#shared/music/index.ts';

export type Stringing = 're-entrant' | 'linear';

/**
 * Whether open pitches fall out of order from one outside course to the other. Judged on the lowest string of each course,
 * from the player's eye down: linear if none is lower than the one before. `stringing([['G4'], ['C4'], ['E4'], ['A4']])` → re-entrant.
 */
export function stringing(courses: readonly (readonly SpelledPitch[])[]): Stringing {
  const lowest = courses.map((strings) => Math.min(...strings.map(pitchMidi)));
  return lowest.every((pitch, index) => index === 0 || pitch >= (lowest[index - 1] ?? pitch)) ? 'linear' : 're-entrant';
}
