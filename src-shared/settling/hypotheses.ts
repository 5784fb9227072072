import type { CreepLaw } from './creep.ts';
import { assumedRate, type CreepRate } from './prior.ts';
import type { StringFacts } from './types.ts';

// What is held possible before anything is heard. The shares are ASSUMED; the evidence of the readings soon outweighs them.

/** How likely a law is for this string, and the rate under that law. */
export interface LawBelief {
  readonly law: CreepLaw;
  readonly logWeight: number;
  readonly rate: CreepRate;
  /** Degrees of freedom of the rate's spread: few where it is only assumed, as some strings creep several times as much. */
  readonly rateFreedom: number;
  /** By which share more than on average it creeps when raised, and less when lowered: the rates are rate·(1 ± skew). */
  readonly skew: { readonly mean: number; readonly variance: number };
}

/** What is known of a string: the laws it may follow, each with its rate. */
export interface StringKnowledge {
  readonly string: StringFacts;
  readonly laws: readonly LawBelief[];
  /** How many earlier retunes this rests on. */
  readonly retunes: number;
}

const bending = (onsetMinutes: number, bend: number, share: number) => ({ law: { onsetSeconds: onsetMinutes * 60, bend }, share });
const twoStage = (fastMinutes: number, slowMinutes: number, fastShare: number, share: number) => ({
  law: { fastSeconds: fastMinutes * 60, slowSeconds: slowMinutes * 60, fastShare },
  share,
});

const lawShares: readonly { readonly law: CreepLaw; readonly share: number }[] = [
  bending(0.1, 0, 1),
  bending(0.3, 0, 2),
  bending(1, 0, 3),
  bending(3, 0, 2),
  bending(10, 0, 1),
  bending(0.1, 0.2, 2),
  bending(1, 0.2, 1),
  bending(0.1, 0.4, 1),
  bending(3, 0.4, 0.5),
  bending(0.3, -0.3, 1),
  bending(2, -0.5, 1.5),
  bending(10, -0.5, 1),
  bending(10, -1, 1),
  bending(30, -1, 1),
  bending(60, -2, 0.5),
  ...[1, 3].flatMap((fast) => [30, 100, 250].flatMap((slow) => [0.35, 0.65].map((fastShare) => twoStage(fast, slow, fastShare, 0.35)))),
];

/** How far off the sigma of readings may be: the true spread over the claimed one, with its share. */
export interface SigmaFactor {
  readonly factor: number;
  readonly share: number;
}

/** How fast other causes may carry a string: a standard deviation, with its share. */
export interface DriftSpread {
  readonly centsPerHour: number;
  readonly share: number;
}

export const sigmaFactors: readonly SigmaFactor[] = [
  { factor: 0.6, share: 0.1 },
  { factor: 1, share: 0.6 },
  { factor: 1.6, share: 0.2 },
  { factor: 2.4, share: 0.1 },
] as const;

/** How fast everything else (weather, a slide) may carry the string: standard deviation in cents per hour, with its share. */
export const driftSpreads = [
  { centsPerHour: 0.3, share: 0.82 },
  { centsPerHour: 4, share: 0.13 },
  { centsPerHour: 60, share: 0.05 },
] as const;

/** Some of a stretch never comes back (plastic stretch: Lynch-Aird and Woodhouse 2025), so a lowered string recovers a little less. Sizes ASSUMED. */
const assumedSkew = { mean: 0.04, variance: 0.07 ** 2 } as const;

const assumedFreedom = 3;

/** What is assumed of a string before its first reading. */
export function assumedKnowledge(string: StringFacts): StringKnowledge {
  const total = lawShares.reduce((sum, { share }) => sum + share, 0);
  const rate = assumedRate(string);
  return {
    string,
    retunes: 0,
    laws: lawShares.map(({ law, share }) => ({
      law,
      logWeight: Math.log(share / total),
      rate,
      rateFreedom: assumedFreedom,
      skew: assumedSkew,
    })),
  };
}
