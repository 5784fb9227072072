import { covarianceOf, dot, type NormalVector } from './linear.ts';

// A vector believed jointly normal, told as independent unit normals: vector = triangle · units, where the units lie about a centre.

/** Lower triangle L with L·Lᵀ = covariance (Cholesky), row after row; and L⁻¹·mean, where the units lie. */
export interface Whitened {
  readonly triangle: Float64Array;
  readonly centre: Float64Array;
}

/** The independent units of a vector. What its covariance leaves without any spread is given next to none. */
export function whitened({ mean, covariance }: NormalVector): Whitened {
  const width = mean.length;
  const triangle = new Float64Array(width * width);
  const centre = new Float64Array(width);
  for (let row = 0; row < width; row += 1) {
    for (let at = 0; at <= row; at += 1) {
      let rest = covariance[row * width + at] as number;
      for (let k = 0; k < at; k += 1) rest -= (triangle[row * width + k] as number) * (triangle[at * width + k] as number);
      triangle[row * width + at] = at === row ? Math.sqrt(Math.max(rest, leastVariance)) : rest / (triangle[at * width + at] as number);
    }
    let rest = mean[row] as number;
    for (let at = 0; at < row; at += 1) rest -= (triangle[row * width + at] as number) * (centre[at] as number);
    centre[row] = rest / (triangle[row * width + row] as number);
  }
  return { triangle, centre };
}

const leastVariance = 1e-12;

/** A row of coefficients of the vector, as the coefficients of its units: Lᵀ·row. */
export function onUnits({ triangle }: Whitened, row: readonly number[]): Float64Array {
  const width = row.length;
  const units = new Float64Array(width);
  for (let from = 0; from < width; from += 1)
    for (let at = 0; at <= from; at += 1)
      units[at] = (units[at] as number) + (row[from] as number) * (triangle[from * width + at] as number);
  return units;
}

/** A weighted belief whose first numbers are the units of the vector; weights sum to 1. */
export interface WeightedBelief {
  readonly weight: number;
  readonly belief: NormalVector;
}

/** The vector again, after its units were learned: mean and covariance over a mixture of beliefs. */
export function mixedVector({ triangle, centre }: Whitened, mixture: readonly WeightedBelief[]): NormalVector {
  const width = centre.length;
  const parts = mixture.map(({ weight, belief }) => {
    const rows = Array.from({ length: width }, (_, row) => {
      const wide = new Float64Array(belief.mean.length);
      wide.set(triangle.subarray(row * width, (row + 1) * width));
      return wide;
    });
    return { weight, belief, rows, means: rows.map((row) => dot(row, belief.mean)) };
  });
  const mean = new Float64Array(width);
  for (const { weight, means } of parts) for (const [at, value] of means.entries()) mean[at] = (mean[at] as number) + weight * value;
  const covariance = new Float64Array(width * width);
  for (const { weight, belief, rows, means } of parts)
    for (const [at, row] of rows.entries())
      for (const [other, otherRow] of rows.entries()) {
        const apart = ((means[at] as number) - (mean[at] as number)) * ((means[other] as number) - (mean[other] as number));
        covariance[at * width + other] =
          (covariance[at * width + other] as number) + weight * (covarianceOf(belief, row, otherRow) + apart);
      }
  return { mean, covariance };
}

/** The same vector, all of it longer or shorter by a share that is known only to a standard deviation. */
export function scaledBy({ mean, covariance }: NormalVector, deviation: number): NormalVector {
  const width = mean.length;
  const wider = covariance.map((value, index) => {
    const [row, at] = [Math.floor(index / width), index % width];
    return value + deviation ** 2 * (mean[row] as number) * (mean[at] as number);
  });
  return { mean, covariance: wider };
}
