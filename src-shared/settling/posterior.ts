import { growthOf, type Strain } from './creep.ts';
import { driftSpreads, sigmaFactors, type DriftSpread, type LawBelief, type SigmaFactor } from './hypotheses.ts';
import { firstDoubts } from './doubts.ts';
import { movementHeard, smallestSigmaCents, type Step, type Stretch } from './layout.ts';
import { departureOf } from './laws.ts';
import { covarianceOf, dot, varianceOf, type Belief } from './linear.ts';
import { robustFit } from './robust.ts';
import { driftHours } from './weather.ts';
import { onUnits, whitened } from './whitened.ts';

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

/** Where the unknowns stand in a row: three of creep (unit normals, see `whitened`), the drift, then a level for each stretch, then the steps. */
export const column = {
  drift: 3,
  level: (stretch: number) => 4 + stretch,
  step: ({ stretches }: Pick<Session, 'stretches'>, step: number) => 4 + stretches.length + step,
} as const;

/** Fits every hypothesis of the listed laws; weights sum to 1. Laws far behind in a first round are left at that. */
export function fitSession(
  session: Session,
  laws: readonly LawBelief[],
  sigmas: readonly SigmaFactor[] = sigmaFactors,
  drifts: readonly DriftSpread[] = driftSpreads,
): readonly Candidate[] {
  const { stretches, steps, strains, common, nowSeconds } = session;
  const width = column.step(session, steps.length);
  const readings = stretches.flatMap((stretch) => stretch.readings);
  const cents = Float64Array.from(readings, (reading) => reading.cents);
  const trusts = readings.length === 0 ? unread : sigmas;
  const claimed = Float64Array.from(
    stretches.flatMap((stretch) => {
      const lawError = lawErrorShare * movementHeard(stretch.readings);
      return stretch.readings.map(({ sigmaCents }) => Math.hypot(Math.max(sigmaCents, smallestSigmaCents), lawError));
    }),
  );
  // A steady drift is of one sitting; between sittings the steps of weather stand for it.
  const sittingSince = steps.reduce(
    (latest, { cause, atSeconds }) => (cause === 'weather' ? Math.max(latest, atSeconds) : latest),
    -Infinity,
  );
  const hoursAt = (atSeconds: number) => driftHours(Math.max(atSeconds, sittingSince) - nowSeconds);
  let start: Float64Array = Float64Array.from(stretches.flatMap(firstDoubts));

  const trials = laws.map(({ listed, logWeight, creep, freedom }, lawIndex) => {
    const [growth, departure] = [growthOf(listed.law), departureOf(listed)];
    const units = whitened(creep);
    const causesAt = (atSeconds: number) => creepCauses(growth, departure, strains, atSeconds);
    const anchors = stretches.map(({ anchorSeconds: at }) => ({ causes: causesAt(at), hours: hoursAt(at) }));
    const rowOn = (at: number) => {
      const anchorSeconds = stretches[at]?.anchorSeconds ?? 0;
      const anchor = anchors[at] ?? { causes: [0, 0, 0], hours: 0 };
      return (atSeconds: number): Float64Array => {
        const row = new Float64Array(width);
        const causes = causesAt(atSeconds).map((cause, index) => cause - (anchor.causes[index] ?? 0));
        row.set(onUnits(units, causes));
        row[column.drift] = hoursAt(atSeconds) - anchor.hours;
        row[column.level(at)] = 1;
        for (const [index, step] of steps.entries())
          row[column.step(session, index)] = atSeconds < step.atSeconds && step.atSeconds <= anchorSeconds ? -1 : 0;
        return row;
      };
    };
    const rows = stretches.flatMap((stretch, at) => stretch.readings.map(({ atSeconds }) => rowOn(at)(atSeconds)));
    const rowAt = rowOn(stretches.length - 1);
    const means = [...units.centre, common.centsPerHour, ...stretches.map((one) => one.levelCents), ...steps.map((one) => one.meanCents)];
    const spreads = [...stretches.map((one) => one.levelSpreadCents ** 2), ...steps.map((one) => one.spreadCents ** 2)];
    const fit = (sigma: SigmaFactor, drift: DriftSpread): Omit<Candidate, 'weight'> => {
      const variances = [1, 1, 1, drift.centsPerHour ** 2 + common.variance, ...spreads];
      const prior = { means: Float64Array.from(means), variances: Float64Array.from(variances) };
      const { belief, logEvidence, doubts } = robustFit(
        prior,
        { rows, cents, sigmas: claimed, doubts: start },
        { sigmaFactor: sigma.factor, freedom },
      );
      start = doubts;
      const log = logEvidence + logWeight + Math.log(sigma.share * drift.share);
      return { belief, logEvidence: log, lawIndex, sigmaFactor: sigma.factor, driftSpread: drift.centsPerHour, rowAt };
    };
    return { fit, first: fit(trusts.find(({ factor }) => factor === 1) ?? (trusts[0] as SigmaFactor), drifts[0] as DriftSpread) };
  });
  const bar = Math.max(...trials.map(({ first }) => first.logEvidence)) - farBehind;
  const fitted = trials.flatMap(({ fit, first }) => {
    if (first.logEvidence < bar) return [first];
    return trusts.flatMap((sigma) => drifts.map((drift) => (sigma.factor === 1 && drift === drifts[0] ? first : fit(sigma, drift))));
  });
  const total = logSum(fitted.map(({ logEvidence }) => logEvidence));
  return fitted.map((candidate) => ({ ...candidate, weight: Math.exp(candidate.logEvidence - total) }));
}

/** What a unit of rate, of skew and of departure has come to at a moment: every move adds its own, by superposition. */
function creepCauses(
  growth: (seconds: number) => number,
  departure: (seconds: number) => number,
  strains: readonly Strain[],
  atSeconds: number,
): readonly number[] {
  let [rate, skew, departed] = [0, 0, 0];
  for (const { atSeconds: movedAt, semitones } of strains) {
    if (atSeconds <= movedAt) continue;
    const grown = growth(atSeconds - movedAt);
    rate += semitones * grown;
    skew += Math.abs(semitones) * grown;
    departed += semitones * departure(atSeconds - movedAt);
  }
  return [rate, skew, departed];
}

const farBehind = 5.5;
/** Where nothing was read, no trust in readings matters. */
const unread: readonly SigmaFactor[] = [{ factor: 1, share: 1 }];
/** How far a string's own law departs from the nearest listed one, as a share of the movement (measured on the bench). */
const lawErrorShare = 0.02;

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
