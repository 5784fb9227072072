import { median } from 'simple-statistics';

/** A line `y = intercept + slope·x` and the spread of what it leaves over. */
export interface RobustLine {
  readonly slope: number;
  readonly intercept: number;
  /** 1.4826 × the median absolute residual: the standard deviation of a normal spread that has the same median. */
  readonly spread: number;
}

/**
 * The line whose slope is the median of all pairwise slopes (Theil 1950, Sen 1968), its intercept the median of `y − slope·x`.
 * Null with fewer than two different x. Up to 29 % of the points may be wild.
 * `theilSen([{ x: 0, y: 1 }, { x: 1, y: 3 }, { x: 2, y: 5 }])` → slope 2, intercept 1, spread 0.
 */
export function theilSen(points: readonly { readonly x: number; readonly y: number }[]): RobustLine | null {
  const slopes = points.flatMap((a, index) => points.slice(index + 1).flatMap((b) => (a.x === b.x ? [] : [(b.y - a.y) / (b.x - a.x)])));
  if (slopes.length === 0) return null;
  const slope = median(slopes);
  const intercept = median(points.map(({ x, y }) => y - slope * x));
  const spread = 1.4826 * median(points.map(({ x, y }) => Math.abs(y - intercept - slope * x)));
  return { slope, intercept, spread };
}
