import { describe, expect, test } from 'vitest';
import { expectedDriftCents, growthOf, learnString, type RetuneLog } from '#shared/settling/index.ts';
import { departureOf, listedLaws } from '#shared/settling/laws.ts';
import { outlookOf } from '#shared/settling/plan.ts';
import { mixedVector, onUnits, scaledBy, whitened } from '#shared/settling/whitened.ts';
import { seededRandom } from '#shared/simulation/strings/index.ts';
import { creeping, nylon, readAlong, usualMoments } from './log.ts';

const minute = 60;
const day = 86_400;

describe('the laws that a string may follow', () => {
  test('are believed equally, family by family', () => {
    for (const family of [0, 1, 2, 3]) {
      const shares = listedLaws.filter((listed) => listed.family === family).map(({ share }) => share);
      expect(shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1 / 4, 12);
    }
  });

  test('depart from themselves by nothing between minute 1 and minute 30, where one rate is compared across all', () => {
    for (const listed of listedLaws) {
      const departure = departureOf(listed);
      expect(departure(30 * minute) - departure(minute)).toBeCloseTo(0, 12);
      expect(Math.abs(departure(4 * 3600) - departure(minute))).toBeGreaterThan(0.001);
    }
  });

  test('with its departure a two-stage law reaches every share of the fast stage exactly, so no share is missing from the list', () => {
    const listed = listedLaws.find(({ law }) => 'fastShare' in law)!;
    if (!('fastShare' in listed.law)) throw new RangeError('a two-stage law must be listed');
    const [law, departure] = [growthOf(listed.law), departureOf(listed)];
    const wanted = growthOf({ ...listed.law, fastShare: 0.62 });
    const amount = (wanted(3600) - wanted(minute) - (law(3600) - law(minute))) / (departure(3600) - departure(minute));
    for (const at of [10, 120, 600, 7200])
      expect(law(at) - law(minute) + amount * (departure(at) - departure(minute))).toBeCloseTo(wanted(at) - wanted(minute), 9);
  });
});

describe('numbers believed jointly', () => {
  const vector = { mean: Float64Array.of(-2.5, -0.1, 0.3), covariance: Float64Array.of(2.25, 0.09, 0.2, 0.09, 0.04, 0.01, 0.2, 0.01, 1.5) };

  test('are independent units through their triangle: the variance of any row is the same either way', () => {
    const row = [1.2, -0.7, 0.4];
    const variance = row.reduce((sum, a, i) => sum + row.reduce((inner, b, j) => inner + a * b * vector.covariance[i * 3 + j]!, 0), 0);
    const units = onUnits(whitened(vector), row);
    expect(units.reduce((sum, value) => sum + value ** 2, 0)).toBeCloseTo(variance, 12);
    expect(units.reduce((sum, value, at) => sum + value * whitened(vector).centre[at]!, 0)).toBeCloseTo(-2.5 * 1.2 + 0.07 + 0.12, 12);
  });

  test('come back as they were where nothing was learned', () => {
    const units = { mean: whitened(vector).centre, covariance: Float64Array.of(1, 0, 0, 0, 1, 0, 0, 0, 1) };
    const back = mixedVector(whitened(vector), [
      { weight: 0.3, belief: units },
      { weight: 0.7, belief: units },
    ]);
    for (const [at, value] of vector.mean.entries()) expect(back.mean[at]!).toBeCloseTo(value, 12);
    for (const [at, value] of vector.covariance.entries()) expect(back.covariance[at]!).toBeCloseTo(value, 12);
  });

  test('all longer or shorter by a tenth, each is by a tenth of itself', () => {
    const wider = scaledBy(vector, 0.1);
    expect(wider.covariance[0]! - vector.covariance[0]!).toBeCloseTo(0.0625, 12);
    expect(wider.covariance[1]! - vector.covariance[1]!).toBeCloseTo(0.0025, 12);
  });
});

describe('the past of a string that was replaced', () => {
  const raisedAt = (from: number): RetuneLog => ({
    moves: [{ atSeconds: from, cents: 200 }],
    readings: readAlong(
      (seconds) => creeping(-12)(seconds - from),
      0.4,
      usualMoments.map((at) => from + at),
      seededRandom(-from),
    ),
  });
  const past = [-40, -34, -28, -22].map((days) => raisedAt(days * day));
  const span = { fromSeconds: 60, untilSeconds: 1860 };
  const expected = (daysSinceChange: number) => {
    const lesson = learnString({ string: { ...nylon, daysSinceChange }, past, nowSeconds: 0 });
    return {
      retunes: lesson.knowledge.retunes,
      ...expectedDriftCents({ lesson, moves: [{ atSeconds: 0, cents: 200 }], nowSeconds: 0 }, span),
    };
  };

  test('tells of one of the same kind: the same creep is expected, with more doubt, and counts as no retune of its own', () => {
    const [same, replaced] = [expected(60), expected(10)];
    expect(Math.abs(replaced.cents - same.cents)).toBeLessThan(1);
    expect(replaced.high - replaced.low).toBeGreaterThan(1.3 * (same.high - same.low));
    expect([same.retunes, replaced.retunes]).toEqual([4, 0]);
  });

  test('was an old string’s: on a new one four times as much is expected', () => {
    expect(expected(1).cents / expected(10).cents).toBeCloseTo(4, 1);
  });
});

test('a plan is fitted once, however many windows are asked of it', () => {
  const lesson = learnString({ string: nylon, past: [], nowSeconds: 0 });
  const plan = { lesson, moves: [{ atSeconds: 0, cents: 200 }], nowSeconds: 0 };
  expect(outlookOf(plan)).toBe(outlookOf(plan));
  expect(outlookOf({ ...plan })).not.toBe(outlookOf(plan));
});
