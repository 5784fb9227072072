import { errorFunction } from 'simple-statistics';

// A distribution made of weighted normal parts.

/** One part; weights of all parts sum to 1. */
export interface Part {
  readonly weight: number;
  readonly mean: number;
  readonly variance: number;
}

/** The mean. */
export const meanOf = (parts: readonly Part[]): number => parts.reduce((sum, { weight, mean }) => sum + weight * mean, 0);

/** The probability of lying at or below a value. */
export const shareBelow = (parts: readonly Part[], value: number): number =>
  parts.reduce(
    (sum, { weight, mean, variance }) => sum + (weight * (1 + errorFunction((value - mean) / Math.sqrt(2 * variance + 1e-12)))) / 2,
    0,
  );

/** The value with the given share (0…1) of the distribution below it, by bisection to a hundredth of a cent. */
export function quantileOf(parts: readonly Part[], share: number): number {
  const ends = parts.flatMap(({ mean, variance }) => [mean - 6 * Math.sqrt(variance) - 0.01, mean + 6 * Math.sqrt(variance) + 0.01]);
  let low = Math.min(...ends);
  let high = Math.max(...ends);
  while (high - low > 0.01) {
    const middle = (low + high) / 2;
    if (shareBelow(parts, middle) < share) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
