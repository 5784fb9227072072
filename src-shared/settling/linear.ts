// Linear models with a normal prior: generalised ridge regression.

/** Numbers believed jointly normal: their means, and their covariance row after row. */
export interface NormalVector {
  readonly mean: Float64Array;
  readonly covariance: Float64Array;
}

/** A normal belief about the coefficients. */
export type Belief = NormalVector;

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

/** Independent normal coefficients before anything is observed; variances above 0. */
export interface Prior {
  readonly means: Float64Array;
  readonly variances: Float64Array;
}

/**
 * The belief after observing `values ≈ rows · coefficients` with the variances of measurement: (XᵀWX + P)⁻¹(XᵀWy + Pm), by sweeping the
 * matrix of precisions (Goodnight 1979); and the logarithm of how far that narrowed it, ½·log(det after / det before).
 */
export function learn(
  { means, variances: priorVariances }: Prior,
  rows: readonly Float64Array[],
  values: Float64Array,
  variances: Float64Array,
): { readonly belief: Belief; readonly logNarrowing: number } {
  const width = means.length;
  const swept = new Float64Array(width * width);
  const pull = new Float64Array(width);
  let logDeterminant = 0;
  for (let at = 0; at < width; at += 1) {
    const precision = 1 / (priorVariances[at] as number);
    swept[at * width + at] = precision;
    pull[at] = precision * (means[at] as number);
    logDeterminant -= Math.log(precision);
  }
  for (const [index, row] of rows.entries()) {
    const precision = 1 / (variances[index] as number);
    const value = values[index] as number;
    for (let at = 0; at < width; at += 1) {
      const weighted = (row[at] as number) * precision;
      if (weighted === 0) continue;
      pull[at] = (pull[at] as number) + weighted * value;
      for (let other = 0; other <= at; other += 1)
        swept[at * width + other] = (swept[at * width + other] as number) + weighted * (row[other] as number);
    }
  }
  for (let at = 1; at < width; at += 1)
    for (let other = 0; other < at; other += 1) swept[other * width + at] = swept[at * width + other] as number;
  logDeterminant += sweep(swept, width);
  const mean = new Float64Array(width);
  for (let at = 0; at < width; at += 1) {
    let sum = 0;
    for (let other = 0; other < width; other += 1) sum += (swept[at * width + other] as number) * (pull[other] as number);
    mean[at] = sum;
  }
  return { belief: { mean, covariance: swept }, logNarrowing: -logDeterminant / 2 };
}

/** Turns a positive definite matrix into its inverse where it stands; returns the logarithm of its determinant. */
function sweep(matrix: Float64Array, width: number): number {
  let logDeterminant = 0;
  for (let pivotAt = 0; pivotAt < width; pivotAt += 1) {
    const pivot = matrix[pivotAt * width + pivotAt] as number;
    logDeterminant += Math.log(pivot);
    for (let at = 0; at < width; at += 1) {
      if (at === pivotAt) continue;
      const share = (matrix[at * width + pivotAt] as number) / pivot;
      if (share === 0) continue;
      for (let other = 0; other < width; other += 1)
        if (other !== pivotAt)
          matrix[at * width + other] = (matrix[at * width + other] as number) - share * (matrix[pivotAt * width + other] as number);
      matrix[at * width + pivotAt] = -share;
    }
    for (let other = 0; other < width; other += 1)
      matrix[pivotAt * width + other] = other === pivotAt ? 1 / pivot : (matrix[pivotAt * width + other] as number) / pivot;
  }
  return logDeterminant;
}
