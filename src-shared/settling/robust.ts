import { dot, learn, type Belief } from './linear.ts';

// A reading is honest with a known spread, or (one in twenty) it is of something else and says little. The weight of each is found by
// expectation and maximisation (Dempster, Laird, Rubin 1977); the evidence of the model by Laplace's approximation at the end of it.

const badShare = 0.05;
const badSpreadCents = 15;
const rounds = 7;

/** A reading as a row of a linear model; `sigma` is its standard deviation under the hypothesis being weighed. */
export interface Row {
  readonly row: Float64Array;
  readonly cents: number;
  readonly sigma: number;
}

/** What a hypothesis makes of the readings. */
export interface RobustFit {
  readonly belief: Belief;
  readonly logEvidence: number;
}

const logTwoPi = Math.log(2 * Math.PI);
const logNormal = (distance: number, spread: number): number => -0.5 * ((distance / spread) ** 2 + logTwoPi) - Math.log(spread);

/** Fits the rows under a prior; `doubts` (one per row, at least 1) multiply the variances of the first round. */
export function robustFit(prior: Belief, rows: readonly Row[], doubts: readonly number[]): RobustFit {
  let variances = rows.map(({ sigma }, index) => sigma ** 2 * (doubts[index] ?? 1));
  let logLikelihood = 0;
  let { belief, logNarrowing } = learn(prior, []);
  for (let round = 0; round < rounds; round += 1) {
    ({ belief, logNarrowing } = learn(
      prior,
      rows.map(({ row, cents }, index) => ({ row, value: cents, variance: variances[index] ?? 1 })),
    ));
    logLikelihood = 0;
    const last = variances;
    variances = rows.map(({ row, cents, sigma }) => {
      const distance = cents - dot(row, belief.mean);
      const badSpread = Math.hypot(sigma, badSpreadCents);
      const good = Math.log(1 - badShare) + logNormal(distance, sigma);
      const bad = Math.log(badShare) + logNormal(distance, badSpread);
      const either = Math.max(good, bad) + Math.log1p(Math.exp(-Math.abs(good - bad)));
      logLikelihood += either;
      const honest = Math.exp(good - either);
      return 1 / (honest / sigma ** 2 + (1 - honest) / badSpread ** 2);
    });
    if (variances.every((variance, index) => Math.abs(Math.log(variance / (last[index] ?? variance))) < 0.02)) break;
  }
  const logPrior = prior.mean.reduce((sum, mean, index) => {
    const variance = prior.covariance[index]?.[index] ?? 0;
    return variance === 0 ? sum : sum - ((belief.mean[index] ?? mean) - mean) ** 2 / (2 * variance);
  }, 0);
  return { belief, logEvidence: logLikelihood + logPrior + logNarrowing };
}
