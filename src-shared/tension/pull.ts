import type { InstrumentString } from '#shared/instruments/index.ts';
import { type Hertz, type KilogramsPerMetre, type Millimetres, type Newtons, newtons } from '#shared/units/index.ts';
import { type Estimate, linearDensity } from './linear-density.ts';

/**
 * Tension of an open string: `T = μ·(2·L·f)²` (Mersenne; OpenStax University Physics 1, sec. 16.3 and 16.6).
 * 0.000392 kg/m, 350 mm, 440 Hz → 37.2 N.
 */
export const tensionNewtons = (density: KilogramsPerMetre, scaleLength: Millimetres, pitch: Hertz): Newtons =>
  newtons(density * (2 * (scaleLength / 1000) * pitch) ** 2);

/** By what a string's tension is multiplied when its pitch moves by so many semitones: `2^(n/6)`. `tensionRatio(-2)` → 0.794. */
export const tensionRatio = (semitones: number): number => 2 ** (semitones / 6);

/** What a string pulls at a pitch, with its band; null where its linear density is not known. Plain nylon of 0.71 mm, 650 mm, E4 → 72 N (68 to 83). */
export function pullAt(string: InstrumentString, scaleLength: Millimetres, pitch: Hertz): Estimate<Newtons> | null {
  const density = linearDensity(string);
  if (density === null) return null;
  const at = (value: KilogramsPerMetre): Newtons => tensionNewtons(value, scaleLength, pitch);
  return { value: at(density.value), low: at(density.low), high: at(density.high) };
}

/** All strings together, with their bands; null where one of them is not known. */
export function totalPull(pulls: readonly (Estimate<Newtons> | null)[]): Estimate<Newtons> | null {
  const sum = { value: 0, low: 0, high: 0 };
  for (const pull of pulls) {
    if (pull === null) return null;
    for (const figure of ['value', 'low', 'high'] as const) sum[figure] += pull[figure];
  }
  return { value: newtons(sum.value), low: newtons(sum.low), high: newtons(sum.high) };
}
