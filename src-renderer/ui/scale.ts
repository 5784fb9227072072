/** Half-range of a course line in cents; a string further off is drawn at the nut or the saddle. */
const rangeCents = 250;
/** Cents up to which the scale is nearly linear. */
const kneeCents = 4;

/**
 * Where a deviation from the aim lies along a course line, from 0 (nut) to 1 (saddle); the aim is in the middle.
 * Compressed away from it, `½ + ½·sign(c)·asinh(|c|/4)/asinh(250/4)`, so that half a cent and two semitones both fit.
 * `alongString(0)` → 0.5; `alongString(3)` → 0.57.
 */
export function alongString(cents: number): number {
  const share = Math.asinh(Math.min(Math.abs(cents), rangeCents) / kneeCents) / Math.asinh(rangeCents / kneeCents);
  return 0.5 + (Math.sign(cents) * share) / 2;
}

/** The frets of a course line: distances from the aim that have a name. */
export const frets = [
  { cents: 10, words: 'tenth' },
  { cents: 50, words: 'half' },
  { cents: 100, words: 'semitone' },
  { cents: 200, words: 'a tone' },
] as const;
