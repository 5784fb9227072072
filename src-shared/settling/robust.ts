import { dot, learn, type Belief, type Prior } from './linear.ts';

// A reading is honest with a known spread, or (one in twenty) it is of something else and says little. The weight of each is found by
// expectation and maximisation (Dempster, Laird, Rubin 1977); the evidence of the model by Laplace's approximation at the end of it.
// The rate of creep has Student's t for its prior, by the same algorithm (Lange, Little, Taylor 1989): most strings creep about as assumed,
// a few creep several times as much, and their readings must win. Skew and departure are spread in proportion to the rate that is found.

const badShare = 0.05;
const badSpreadCents = 15;
const rounds = 8;
const settled = 0.02;

/** Readings as rows of a linear model; `doubts` (each 1 or more) multiply the variances of the first round. */
export interface Observed {
  readonly rows: readonly Float64Array[];
  readonly cents: Float64Array;
  readonly sigmas: Float64Array;
  readonly doubts: Float64Array;
}

/** What a hypothesis makes of the readings. */
export interface RobustFit {
  readonly belief: Belief;
  readonly logEvidence: number;
  /** What multiplied each variance in the end: where a similar fit may start. */
  readonly doubts: Float64Array;
}

/** Skew and departure; like the rate, which comes first, they have 1 for their prior variance. */
const besideRate = [1, 2] as const;
const [leastProportion, mostProportion] = [0.1, 30];
const halfLogTwoPi = Math.log(2 * Math.PI) / 2;
const logNormal = (distance: number, spread: number): number => -0.5 * (distance / spread) ** 2 - Math.log(spread) - halfLogTwoPi;

/** Fits the readings under a prior, with every sigma multiplied by `sigmaFactor` and so many degrees of freedom for the creep (whose prior variances are 1). */
export function robustFit(
  assumed: Prior,
  { rows, cents, sigmas, doubts }: Observed,
  { sigmaFactor, freedom }: { readonly sigmaFactor: number; readonly freedom: number },
): RobustFit {
  const variances = sigmas.map((sigma, index) => (sigma * sigmaFactor) ** 2 * (doubts[index] as number));
  const prior = { means: assumed.means, variances: Float64Array.from(assumed.variances) };
  let loosened = 1;
  let { belief, logNarrowing } = learn(prior, rows, cents, variances);
  let logLikelihood = 0;
  for (let round = 0; round < rounds; round += 1) {
    logLikelihood = 0;
    let change = 0;
    for (const [index, row] of rows.entries()) {
      const distance = (cents[index] as number) - dot(row, belief.mean);
      const sigma = (sigmas[index] as number) * sigmaFactor;
      const badVariance = sigma ** 2 + badSpreadCents ** 2;
      const good = Math.log(1 - badShare) + logNormal(distance, sigma);
      const bad = Math.log(badShare) + logNormal(distance, Math.sqrt(badVariance));
      const either = Math.max(good, bad) + Math.log1p(Math.exp(-Math.abs(good - bad)));
      logLikelihood += either;
      const honest = Math.exp(good - either);
      const variance = 1 / (honest / sigma ** 2 + (1 - honest) / badVariance);
      change = Math.max(change, Math.abs(variance / (variances[index] as number) - 1));
      variances[index] = variance;
    }
    const before = loosened;
    loosened = 1 + ((belief.mean[0] as number) - (prior.means[0] as number)) ** 2 / (freedom + 1);
    change = Math.max(change, Math.abs(loosened / before - 1) / 10);
    if (change < settled) break;
    prior.variances[0] = loosened;
    const proportion = ((belief.mean[0] as number) / (prior.means[0] as number)) ** 2;
    for (const at of besideRate) prior.variances[at] = Math.min(mostProportion, Math.max(leastProportion, proportion));
    ({ belief, logNarrowing } = learn(prior, rows, cents, variances));
  }
  let logPrior = 0;
  for (const [index, mean] of prior.means.entries())
    if (index > 0) logPrior -= ((belief.mean[index] as number) - mean) ** 2 / (2 * (prior.variances[index] as number));
  // Student's density, and the narrowing counted from the variance as it was assumed.
  logPrior -= (freedom / 2) * Math.log(prior.variances[0] as number);
  const finalDoubts = variances.map((variance, index) => variance / ((sigmas[index] as number) * sigmaFactor) ** 2);
  return { belief, logEvidence: logLikelihood + logPrior + logNarrowing, doubts: finalDoubts };
}
