import type { Material } from '#shared/units/index.ts';
import type { StringFacts } from './types.ts';

// No published cents-against-minutes exist for a retuned string, so every figure here is ASSUMED, on the scale of trade experience.
// The signs are physics: a raised polymer relaxes and goes flat, a lowered one recovers and goes sharp.

const centsPerDecadePerSemitone = -2.5;
const materialShare: Record<Material, number> = { nylon: 1, 'synthetic-gut': 1, gut: 1, fluorocarbon: 0.6, steel: 0.15 };
const woundShare = 0.8;
const relativeDeviation = 0.6;
const youngDays = 3;
const youngFactor = 4;

/** A creep rate: cents per decade of time for each semitone that the string was raised (so it is negative), with its variance. */
export interface CreepRate {
  readonly mean: number;
  readonly variance: number;
}

/**
 * The assumed creep rate of a string nobody has listened to yet.
 * `assumedRate({ material: 'nylon', wound: false, daysSinceChange: null })` → mean −2.5, standard deviation 1.5.
 */
export function assumedRate(string: StringFacts): CreepRate {
  const woundHere = string.wound && string.material !== 'steel';
  const mean = centsPerDecadePerSemitone * materialShare[string.material] * (woundHere ? woundShare : 1);
  return { mean, variance: (relativeDeviation * mean) ** 2 };
}

/**
 * How much more a move counts on a new string: 4 under three days of age, else 1 (assumed). An unknown day is infinitely long ago.
 * `youth(1)` → 4.
 */
export const youth = (daysSinceChange: number): number => (daysSinceChange < youngDays ? youngFactor : 1);
