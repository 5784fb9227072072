import type { StringKnowledge } from './hypotheses.ts';
import { meanOf, quantileOf, shareBelow, type Part } from './mixture.ts';
import { column, fitSession, logSum, mixed, partsOf, type Candidate, type Session } from './posterior.ts';
import type { Forecast } from './types.ts';
import { withWeather } from './weather.ts';

// What a fitted session says about later: pitch, movement between two moments, and what one more reading would add.

/** Against the likeliest. */
const negligibleWeight = 0.01;
/** No law of the list is the string's own: a forecast movement is uncertain by at least this share of itself (measured on the bench). */
const lawErrorShare = 0.08;

/** A fitted session, asked about moments. Moments before the present stretch are answered as if the stretch had already begun. */
export interface Outlook {
  readonly pitchAt: (atSeconds: number) => Forecast;
  readonly movement: (fromSeconds: number, untilSeconds: number) => Forecast;
  /** The probability that the string moves no more than the tolerance between two moments. */
  readonly staysWithin: (toleranceCents: number, fromSeconds: number, untilSeconds: number) => number;
  /** What carries the string steadily, besides creep and what its neighbours show too: its mean, and the probability that it is below a rate. */
  readonly drift: (centsPerHour: number) => { readonly centsPerHour: number; readonly shareBelow: number };
  /** The share (0…1) of the variance at `targetSeconds` that a reading at `readAtSeconds` with that sigma would take away. */
  readonly narrowing: (readAtSeconds: number, targetSeconds: number, sigmaCents: number) => number;
}

const difference = (a: Float64Array, b: Float64Array): Float64Array => a.map((value, index) => value - (b[index] ?? 0));

const bandOf = (parts: readonly Part[]): Forecast => ({
  cents: meanOf(parts),
  low: quantileOf(parts, 0.05),
  high: quantileOf(parts, 0.95),
});

/** Fits a session with what is known of the string, and averages with another account of it if one is given. */
export function outlookOn(
  session: Session,
  knowledge: StringKnowledge,
  other: { readonly session: Session; readonly logPrior: number } | null = null,
): Outlook {
  const all = [
    ...fitSession(session, knowledge.laws),
    ...(other === null
      ? []
      : fitSession(other.session, knowledge.laws).map((c) => ({ ...c, logEvidence: c.logEvidence + other.logPrior }))),
  ];
  const most = Math.max(...all.map(({ logEvidence }) => logEvidence));
  const heavy = all.filter(({ logEvidence }) => logEvidence > most + Math.log(negligibleWeight));
  const logTotal = logSum(heavy.map(({ logEvidence }) => logEvidence));
  const candidates: readonly Candidate[] = heavy.map((c) => ({ ...c, weight: Math.exp(c.logEvidence - logTotal) }));
  const present = session.stretches.at(-1);
  const heardUntil = present?.anchorSeconds ?? session.nowSeconds;

  const pitchParts = (atSeconds: number): readonly Part[] => {
    const moved = movementParts(heardUntil, atSeconds);
    const parts = partsOf(candidates, (c) => c.rowAt(atSeconds)).map((part, index) => ({
      ...part,
      variance: part.variance + (lawErrorShare * (moved[index]?.mean ?? 0)) ** 2,
    }));
    return withWeather(parts, atSeconds - heardUntil);
  };
  const movementParts = (from: number, until: number): readonly Part[] =>
    partsOf(candidates, (c) => difference(c.rowAt(until), c.rowAt(from))).map((part) => ({
      ...part,
      variance: part.variance + (lawErrorShare * part.mean) ** 2,
    }));
  return {
    pitchAt: (atSeconds) => bandOf(pitchParts(atSeconds)),
    movement: (from, until) => bandOf(movementParts(from, until)),
    staysWithin: (tolerance, from, until) => {
      const parts = movementParts(from, until);
      return shareBelow(parts, tolerance) - shareBelow(parts, -tolerance);
    },
    drift: (centsPerHour) => {
      const parts = candidates.map(({ weight, belief }) => ({
        weight,
        mean: (belief.mean[column.drift] ?? 0) - session.common.centsPerHour,
        variance: belief.covariance[column.drift * (belief.mean.length + 1)] ?? 0,
      }));
      return { centsPerHour: meanOf(parts), shareBelow: shareBelow(parts, centsPerHour) };
    },
    narrowing: (readAt, target, sigmaCents) => {
      const [atReading, atTarget] = [(c: Candidate) => c.rowAt(readAt), (c: Candidate) => c.rowAt(target)];
      const readVariance = mixed(candidates, atReading, atReading).covariance + sigmaCents ** 2;
      const targetVariance = mixed(candidates, atTarget, atTarget).covariance;
      return mixed(candidates, atReading, atTarget).covariance ** 2 / (readVariance * targetVariance);
    },
  };
}
