import { type Hertz, type KilogramsPerMetre, type Millimetres, type Newtons, newtons } from '#shared/units/index.ts';

/**
 * Tension of an open string: `T = μ·(2·L·f)²` (Mersenne; OpenStax University Physics 1, sec. 16.3 and 16.6).
 * 0.000392 kg/m, 350 mm, 440 Hz → 37.2 N.
 */
export const tensionNewtons = (density: KilogramsPerMetre, scaleLength: Millimetres, pitch: Hertz): Newtons =>
  newtons(density * (2 * (scaleLength / 1000) * pitch) ** 2);

/** By what a string's tension is multiplied when its pitch moves by so many semitones: `2^(n/6)`. `tensionRatio(-2)` → 0.794. */
export const tensionRatio = (semitones: number): number => 2 ** (semitones / 6);
