import { dot, learn, type Belief, type Prior } from './linear.ts';

// A reading is honest with a known spread, or (one in twenty) it is of something else and says little. The weight of each is found by
// expectation and maximisation (Dempster, Laird, Rubin 1977); the evidence of the model by Laplace's approximation at the end of it.
// The first coefficient, the rate of creep, has Student's t for its prior, by the same algorithm (Lange, Little, Taylor 1989): most strings
// creep about as assumed, a few creep several times as much, and their readings must win.

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

const halfLogTwoPi = Math.log(2 * Math.PI) / 2;
const logNormal = (distance: number, spread: number): number => -0.5 * (distance / spread) ** 2 - Math.log(spread) - halfLogTwoPi;

/** Fits the readings under a prior, with every sigma multiplied by `sigmaFactor` and so many degrees of freedom for the rate. */
export function robustFit(
  assumed: Prior,
  { rows, cents, sigmas, doubts }: Observed,
  { sigmaFactor, rateFreedom }: { readonly sigmaFactor: number; readonly rateFreedom: number },
): RobustFit {
  const variances = sigmas.map((sigma, index) => (sigma * sigmaFactor) ** 2 * (doubts[index] as number));
  const prior = { means: assumed.means, variances: Float64Array.from(assumed.variances) };
  const rateMean = prior.means[0] as number;
  const rateVariance = prior.variances[0] as number;
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
    const loosened = rateVariance + ((belief.mean[0] as number) - rateMean) ** 2 / (rateFreedom + 1);
    change = Math.max(change, Math.abs(loosened / (prior.variances[0] as number) - 1) / 10);
    if (change < settled) break;
    prior.variances[0] = loosened;
    ({ belief, logNarrowing } = learn(prior, rows, cents, variances));
  }
  let logPrior = 0;
  for (const [index, mean] of prior.means.entries())
    if (index > 0) logPrior -= ((belief.mean[index] as number) - mean) ** 2 / (2 * (prior.variances[index] as number));
  // Student's density, and the narrowing counted from the variance as it was assumed.
  logPrior -= (rateFreedom / 2) * Math.log((prior.variances[0] as number) / rateVariance);
  const finalDoubts = variances.map((variance, index) => variance / ((sigmas[index] as number) * sigmaFactor) ** 2);
  return { belief, logEvidence: logLikelihood + logPrior + logNarrowing, doubts: finalDoubts };
}
