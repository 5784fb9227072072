// Linear models with a normal prior, answered one observation at a time (recursive least squares; Kalman 1960 with a still state).

/** A normal belief about the coefficients: mean, and covariance row after row. */
export interface Belief {
  readonly mean: Float64Array;
  readonly covariance: Float64Array;
}

/** The scalar product of two rows of one length. */
export function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let index = 0; index < a.length; index += 1) sum += (a[index] as number) * (b[index] as number);
  return sum;
}

/** The covariance of `a · coefficients` with `b · coefficients`. */
export function covarianceOf({ covariance }: Belief, a: Float64Array, b: Float64Array): number {
  const width = a.length;
  let sum = 0;
  for (let at = 0; at < width; at += 1) {
    const left = a[at] as number;
    if (left === 0) continue;
    for (let other = 0; other < width; other += 1) sum += left * (covariance[at * width + other] as number) * (b[other] as number);
  }
  return sum;
}

/** The variance of `row · coefficients`. */
export const varianceOf = (belief: Belief, row: Float64Array): number => Math.max(0, covarianceOf(belief, row, row));

/** The belief with independent coefficients. */
export function independent(means: readonly number[], variances: readonly number[]): Belief {
  const covariance = new Float64Array(means.length ** 2);
  for (const [at, variance] of variances.entries()) covariance[at * (means.length + 1)] = variance;
  return { mean: Float64Array.from(means), covariance };
}

/**
 * The belief after observing `values ≈ rows · coefficients` with the variances of measurement, and the logarithm of how far that
 * narrowed it: Σ ½·log(variance / predicted variance).
 */
export function learn(
  prior: Belief,
  rows: readonly Float64Array[],
  values: Float64Array,
  variances: Float64Array,
): { readonly belief: Belief; readonly logNarrowing: number } {
  const width = prior.mean.length;
  const mean = Float64Array.from(prior.mean);
  const covariance = Float64Array.from(prior.covariance);
  const gain = new Float64Array(width);
  let narrowing = 0;
  for (const [index, row] of rows.entries()) {
    const variance = variances[index] as number;
    let predicted = variance;
    for (let at = 0; at < width; at += 1) {
      let sum = 0;
      for (let other = 0; other < width; other += 1) sum += (covariance[at * width + other] as number) * (row[other] as number);
      gain[at] = sum;
      predicted += sum * (row[at] as number);
    }
    const surprise = ((values[index] as number) - dot(row, mean)) / predicted;
    for (let at = 0; at < width; at += 1) {
      const share = gain[at] as number;
      mean[at] = (mean[at] as number) + share * surprise;
      const relative = share / predicted;
      for (let other = 0; other < width; other += 1)
        covariance[at * width + other] = (covariance[at * width + other] as number) - relative * (gain[other] as number);
    }
    narrowing += Math.log(variance / predicted);
  }
  return { belief: { mean, covariance }, logNarrowing: narrowing / 2 };
}
