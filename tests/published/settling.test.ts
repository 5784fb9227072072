import { linearRegression } from 'simple-statistics';
import { describe, expect, test } from 'vitest';
import { growthOf, settleSeconds, superposed, theilSen } from '#shared/settling/index.ts';
import { learn } from '#shared/settling/linear.ts';

describe('Theil–Sen', () => {
  // The worked example of P. K. Sen, "Estimates of the regression coefficient based on Kendall's tau", JASA 63 (1968) 1379–1389: slope 4.
  // The intercept 6 is the median of y − 4x, as scipy.stats.theilslopes(…, method='joint') of SciPy 1.17.1 gives it on the same data.
  const x = [1, 2, 3, 4, 10, 12, 18];
  const y = [9, 15, 19, 20, 45, 55, 78];
  const points = x.map((at, index) => ({ x: at, y: y[index]! }));

  test('gives the slope of the example of 1968', () => {
    const line = theilSen(points)!;
    expect(line.slope).toBeCloseTo(4, 12);
    expect(line.intercept).toBeCloseTo(6, 12);
  });

  test('keeps the slope with one reading far off, where least squares does not', () => {
    const bad = points.map((point) => (point.x === 12 ? { x: 12, y: 20 } : point));
    expect(Math.abs(theilSen(bad)!.slope - 4)).toBeLessThan(0.25);
    expect(Math.abs(linearRegression(bad.map((point) => [point.x, point.y])).m - 4)).toBeGreaterThan(0.4);
  });
});

describe('Theil–Sen against ml-regression-theil-sen 3.0.0 (MIT), run on the same readings', () => {
  const logTime = [20, 45, 90, 160, 280, 420, 600].map((at) => Math.log10(1 + at / 60));
  const heard = [-0.8, -1.6, -2.9, -3.6, -4.9, -5.6, -6.4];
  const lineOf = (cents: readonly number[]) => theilSen(logTime.map((x, index) => ({ x, y: cents[index]! })))!;

  test('a creeping string', () => {
    expect(lineOf(heard).slope).toBeCloseTo(-6.060129162362563, 12);
    expect(lineOf(heard).intercept).toBeCloseTo(-0.1271580335924949, 12);
  });

  test('the same with one reading of something else', () => {
    const line = lineOf(heard.map((cents, index) => (index === 2 ? 12 : cents)));
    expect(line.slope).toBeCloseTo(-6.16846660290465, 12);
    expect(line.intercept).toBeCloseTo(-0.029319575822601363, 12);
  });
});

describe('the fit against general statistics libraries on the same readings', () => {
  const seconds = [20, 45, 90, 160, 280, 420, 600];
  const heard = [-0.8, -1.6, -2.9, -3.6, -4.9, -5.6, -6.4];
  const sigmas = [0.5, 0.5, 0.6, 0.7, 0.5, 0.5, 0.6];
  const rows = seconds.map((at) => Float64Array.from([1, Math.log10(1 + at / 60)]));

  test('with a vague prior and equal sigmas it is the least-squares line of simple-statistics', () => {
    const { belief } = learn(
      { means: Float64Array.of(0, 0), variances: Float64Array.of(1e10, 1e10) },
      rows,
      Float64Array.from(heard),
      new Float64Array(7).fill(0.25),
    );
    const line = linearRegression(rows.map((row, index) => [row[1]!, heard[index]!]));
    expect(belief.mean[0]!).toBeCloseTo(line.b, 6);
    expect(belief.mean[1]!).toBeCloseTo(line.m, 6);
  });

  test('with a prior and unequal sigmas it is the closed form (X′WX + P)⁻¹ as NumPy solves it', () => {
    const variances = Float64Array.from(sigmas, (sigma) => sigma ** 2);
    const { belief } = learn(
      { means: Float64Array.of(0, -5), variances: Float64Array.of(100, 9) },
      rows,
      Float64Array.from(heard),
      variances,
    );
    expect(belief.mean[0]!).toBeCloseTo(-0.19594864, 7);
    expect(belief.mean[1]!).toBeCloseTo(-6.05064012, 7);
    for (const [index, value] of [0.16300808, -0.21498944, -0.21498944, 0.38310609].entries())
      expect(belief.covariance[index]!).toBeCloseTo(value, 7);
  });
});

describe('settle time in closed form', () => {
  // t = H/(10^(N/D) − 1) − τ with τ = 1 minute, computed independently of this code from the formula; minutes.
  test.each([
    { rateCents: 10, toleranceCents: 3, horizonMinutes: 30, expected: 29.142807 },
    { rateCents: 20, toleranceCents: 3, horizonMinutes: 30, expected: 71.720654 },
    { rateCents: 5, toleranceCents: 3, horizonMinutes: 30, expected: 9.0634949 },
    { rateCents: 10, toleranceCents: 5, horizonMinutes: 30, expected: 12.874259 },
    { rateCents: 10, toleranceCents: 1, horizonMinutes: 30, expected: 114.86348 },
    { rateCents: 10, toleranceCents: 3, horizonMinutes: 120, expected: 119.57123 },
  ])('$rateCents c a decade, ±$toleranceCents c for $horizonMinutes min: after $expected min', (row) => {
    const { rateCents, toleranceCents, horizonMinutes, expected } = row;
    const seconds = settleSeconds({ rateCents, toleranceCents, horizonSeconds: horizonMinutes * 60, onsetSeconds: 60 });
    expect(Math.abs(seconds / 60 - expected)).toBeLessThan(0.001);
  });

  // D 12 at 0 min and −9 at 60 min, τ 1 min: sharpest at minute 239 on a grid of minutes, about 13 c above where it was left by minute 180.
  // (A player's report has the same order: tuned high overnight and dropped back, it goes sharp for a while and then settles.)
  test('raised, and lowered by less an hour later: sharpest at minute 239, then slowly flat', () => {
    const growth = growthOf({ onsetSeconds: 60, bend: 0 });
    const strains = [
      { atSeconds: 0, semitones: 12 },
      { atSeconds: 3600, semitones: -9 },
    ];
    const pitch = (minute: number) => -superposed(growth, strains, minute * 60);
    const minutes = Array.from({ length: 600 }, (_, index) => 61 + index);
    const sharpest = minutes.reduce((best, minute) => (pitch(minute) > pitch(best) ? minute : best));
    expect(sharpest).toBe(239);
    expect(pitch(180) - pitch(60)).toBeCloseTo(13, 0);
  });
});
