import { growthOf, superposed, type Strain } from './creep.ts';
import { driftSpreads, sigmaFactors, type LawBelief } from './hypotheses.ts';
import { firstDoubts, type Step, type Stretch } from './layout.ts';
import { covarianceOf, dot, independent, varianceOf, type Belief } from './linear.ts';
import { robustFit, type Row } from './robust.ts';

// Every hypothesis (law of creep × trust in sigma × drift of other causes) fitted to one session, weighted by its evidence.

/** A session ready to be fitted. */
export interface Session {
  readonly stretches: readonly Stretch[];
  readonly steps: readonly Step[];
  readonly strains: readonly Strain[];
  /** The drift that unmoved neighbours show, cents per hour, and how well that is known. */
  readonly common: { readonly centsPerHour: number; readonly variance: number };
  /** The moment after which drift fades out in a forecast. */
  readonly nowSeconds: number;
}

/** One hypothesis after the readings. */
export interface Candidate {
  readonly weight: number;
  readonly logEvidence: number;
  readonly belief: Belief;
  readonly lawIndex: number;
  readonly sigmaFactor: number;
  readonly driftSpread: number;
  /** The row that gives the pitch at a moment on the present stretch. */
  readonly rowAt: (atSeconds: number) => Float64Array;
}

const driftFadeSeconds = 3600;
const rateColumn = 0;
const driftColumn = 1;
const levelColumn = 2;

/** Hours of drift since now: as many as the clock's before now, fading out after it (weather does not go on for ever). */
const driftHours = (seconds: number): number =>
  (seconds <= 0 ? seconds : driftFadeSeconds * (1 - Math.exp(-seconds / driftFadeSeconds))) / 3600;

/** Fits every hypothesis of the listed laws; weights sum to 1. */
export function fitSession(
  session: Session,
  laws: readonly LawBelief[],
  sigmas: readonly { factor: number; share: number }[] = sigmaFactors,
): readonly Candidate[] {
  const { stretches, steps, strains, common, nowSeconds } = session;
  const width = levelColumn + stretches.length + steps.length;
  const doubts = stretches.flatMap(firstDoubts);
  const readings = stretches.flatMap((stretch) => stretch.readings);

  const fitted = laws.flatMap(({ law, logWeight, rate }, lawIndex) => {
    const growth = growthOf(law);
    const creep = (atSeconds: number) => superposed(growth, strains, atSeconds);
    const anchors = stretches.map(({ anchorSeconds }) => creep(anchorSeconds));
    const rowOn = (at: number) => {
      const anchorSeconds = stretches[at]?.anchorSeconds ?? 0;
      const anchorHours = driftHours(anchorSeconds - nowSeconds);
      return (atSeconds: number): Float64Array => {
        const row = new Float64Array(width);
        row[rateColumn] = creep(atSeconds) - (anchors[at] ?? 0);
        row[driftColumn] = driftHours(atSeconds - nowSeconds) - anchorHours;
        row[levelColumn + at] = 1;
        for (const [index, step] of steps.entries())
          row[levelColumn + stretches.length + index] = atSeconds < step.atSeconds && step.atSeconds <= anchorSeconds ? -1 : 0;
        return row;
      };
    };
    const rows = stretches.flatMap(({ readings }, at) => readings.map(({ atSeconds }) => rowOn(at)(atSeconds)));
    const rowAt = rowOn(stretches.length - 1);

    return sigmas.flatMap(({ factor, share: sigmaShare }) =>
      driftSpreads.map(({ centsPerHour, share: driftShare }) => {
        const prior = independent(
          [rate.mean, common.centsPerHour, ...stretches.map(({ levelCents }) => levelCents), ...steps.map(({ meanCents }) => meanCents)],
          [
            rate.variance,
            centsPerHour ** 2 + common.variance,
            ...stretches.map(({ levelSpreadCents }) => levelSpreadCents ** 2),
            ...steps.map(({ spreadCents }) => spreadCents ** 2),
          ],
        );
        const observed = readings.map((reading, index): Row => {
          const row = rows[index] ?? rowAt(reading.atSeconds);
          return { row, cents: reading.cents, sigma: factor * Math.max(reading.sigmaCents, smallestSigma) };
        });
        const { belief, logEvidence } = robustFit(prior, observed, doubts);
        const log = logEvidence + logWeight + Math.log(sigmaShare * driftShare);
        return { belief, logEvidence: log, lawIndex, sigmaFactor: factor, driftSpread: centsPerHour, rowAt };
      }),
    );
  });
  const total = logSum(fitted.map(({ logEvidence }) => logEvidence));
  return fitted.map((candidate) => ({ ...candidate, weight: Math.exp(candidate.logEvidence - total) }));
}

const smallestSigma = 0.15;

/** log Σ exp, without overflow. */
export function logSum(logs: readonly number[]): number {
  const largest = logs.reduce((most, log) => Math.max(most, log), Number.NEGATIVE_INFINITY);
  return largest + Math.log(logs.reduce((sum, log) => sum + Math.exp(log - largest), 0));
}

/** Mean and covariance of two linear readings of the mixture: `of` gives each candidate's row. */
export function mixed(candidates: readonly Candidate[], a: (c: Candidate) => Float64Array, b: (c: Candidate) => Float64Array) {
  const parts = candidates.map((c) => {
    const [rowA, rowB] = [a(c), b(c)];
    return { weight: c.weight, a: dot(rowA, c.belief.mean), b: dot(rowB, c.belief.mean), within: covarianceOf(c.belief, rowA, rowB) };
  });
  const meanA = parts.reduce((sum, part) => sum + part.weight * part.a, 0);
  const meanB = parts.reduce((sum, part) => sum + part.weight * part.b, 0);
  const covariance = parts.reduce((sum, part) => sum + part.weight * (part.within + (part.a - meanA) * (part.b - meanB)), 0);
  return { meanA, meanB, covariance };
}

/** The normal parts of the distribution of a linear reading, for `mean` and `quantile`. */
export const partsOf = (candidates: readonly Candidate[], row: (c: Candidate) => Float64Array) =>
  candidates.map((c) => {
    const at = row(c);
    return { weight: c.weight, mean: dot(at, c.belief.mean), variance: varianceOf(c.belief, at) };
  });
