import { listedLaws, type ListedLaw } from './laws.ts';
import type { NormalVector } from './linear.ts';
import { assumedRate } from './prior.ts';
import type { StringFacts } from './types.ts';

// What is held possible before anything is heard. The shares are ASSUMED; the evidence of the readings soon outweighs them.

/** How likely a law is for this string, and how it creeps under that law. */
export interface LawBelief {
  readonly listed: ListedLaw;
  readonly logWeight: number;
  /**
   * Jointly, in cents per decade and semitone raised: the rate; its skew (it creeps by that more when raised and less when lowered); and the
   * departure from the listed law towards its second neighbour.
   */
  readonly creep: NormalVector;
  /** Degrees of freedom of that spread: few where it is only assumed, as some strings creep several times as much. */
  readonly freedom: number;
}

/** What is known of a string: the laws it may follow, each with its creep. */
export interface StringKnowledge {
  readonly string: StringFacts;
  readonly laws: readonly LawBelief[];
  /** How many earlier retunes this rests on. */
  readonly retunes: number;
}

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
const skewShare = 0.04;
const skewDeviation = 0.07;
/** Departures: about evenly as far as to the neighbours on either side. */
const departureDeviation = 0.7;

/** Of the spread of a creep that is only assumed. */
export const assumedFreedom = 3;

/** What is assumed of a string before its first reading. */
export function assumedKnowledge(string: StringFacts): StringKnowledge {
  const { mean, variance } = assumedRate(string);
  const skewVariance = skewShare ** 2 * variance + (skewDeviation * mean) ** 2;
  const creep: NormalVector = {
    mean: Float64Array.of(mean, skewShare * mean, 0),
    covariance: Float64Array.of(
      variance,
      skewShare * variance,
      0,
      skewShare * variance,
      skewVariance,
      0,
      0,
      0,
      (departureDeviation * mean) ** 2,
    ),
  };
  return {
    string,
    retunes: 0,
    laws: listedLaws.map((listed) => ({ listed, logWeight: Math.log(listed.share), creep, freedom: assumedFreedom })),
  };
}
