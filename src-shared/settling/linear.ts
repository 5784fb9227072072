// Linear models with a normal prior, answered one observation at a time (recursive least squares; Kalman 1960 with a still state).

/** A normal belief about the coefficients: mean, and covariance row by row. */
export interface Belief {
  readonly mean: Float64Array;
  readonly covariance: readonly Float64Array[];
}

/** Something measured: `value ≈ row · coefficients`, with the variance of the measurement. */
export interface Observation {
  readonly row: Float64Array;
  readonly value: number;
  readonly variance: number;
}

/** The scalar product of two rows of one length. */
export function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let index = 0; index < a.length; index += 1) sum += (a[index] as number) * (b[index] as number);
  return sum;
}

const times = (matrix: readonly Float64Array[], vector: Float64Array): Float64Array => Float64Array.from(matrix, (row) => dot(row, vector));

/** The variance of `row · coefficients`. */
export const varianceOf = ({ covariance }: Belief, row: Float64Array): number => Math.max(0, dot(row, times(covariance, row)));

/** The covariance of `a · coefficients` with `b · coefficients`. */
export const covarianceOf = ({ covariance }: Belief, a: Float64Array, b: Float64Array): number => dot(a, times(covariance, b));

/** The belief with independent coefficients. */
export function independent(means: readonly number[], variances: readonly number[]): Belief {
  const covariance = variances.map((variance, at) => Float64Array.from(variances, (_, other) => (other === at ? variance : 0)));
  return { mean: Float64Array.from(means), covariance };
}

/** The belief after the observations, and the logarithm of how far they narrowed it: Σ ½·log(variance / predicted variance). */
export function learn(prior: Belief, observations: readonly Observation[]): { readonly belief: Belief; readonly logNarrowing: number } {
  const mean = Float64Array.from(prior.mean);
  const covariance = prior.covariance.map((row) => Float64Array.from(row));
  let logNarrowing = 0;
  for (const { row, value, variance } of observations) {
    const gain = times(covariance, row);
    const predicted = dot(row, gain) + variance;
    const surprise = (value - dot(row, mean)) / predicted;
    for (let index = 0; index < mean.length; index += 1) {
      const share = gain[index] as number;
      mean[index] = (mean[index] as number) + share * surprise;
      const line = covariance[index] as Float64Array;
      for (let other = 0; other < mean.length; other += 1)
        line[other] = (line[other] as number) - (share * (gain[other] as number)) / predicted;
    }
    logNarrowing += 0.5 * Math.log(variance / predicted);
  }
  return { belief: { mean, covariance }, logNarrowing };
}
