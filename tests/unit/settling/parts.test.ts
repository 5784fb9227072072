import { describe, expect, test } from 'vitest';
import { growthOf, theilSen } from '#shared/settling/index.ts';
import { holdsFrom } from '#shared/settling/holds.ts';
import { quantileOf, shareBelow } from '#shared/settling/mixture.ts';
import type { Outlook } from '#shared/settling/outlook.ts';
import { thin } from '#shared/settling/thin.ts';
import { inWords } from '#shared/settling/why.ts';
import { creeping, readAlong } from './log.ts';

describe('the laws of creep', () => {
  test.each([
    { law: { onsetSeconds: 60, bend: 0 } },
    { law: { onsetSeconds: 6, bend: 0.3 } },
    { law: { onsetSeconds: 600, bend: -1 } },
    { law: { fastSeconds: 120, slowSeconds: 6000, fastShare: 0.5 } },
  ])('$law moves as far from minute 1 to minute 30 as the logarithm, and ever onward', ({ law }) => {
    const growth = growthOf(law);
    expect(growth(1800) - growth(60)).toBeCloseTo(Math.log10(31 / 2), 9);
    expect(growth(-5)).toBe(0);
    expect(growth(7200)).toBeGreaterThan(growth(3600));
  });
});

describe('holds from', () => {
  test('finds by bisection what the closed form gives for one move', () => {
    // 10 c a decade, ±3 c, 30 minutes: 29.14 minutes after the move
    const certain: Pick<Outlook, 'staysWithin'> = {
      staysWithin: (tolerance, from, until) => (Math.abs(creeping(10)(until) - creeping(10)(from)) <= tolerance ? 1 : 0),
    };
    const found = holdsFrom(certain as Outlook, { toleranceCents: 3, horizonSeconds: 1800 }, 0);
    expect(found! / 60).toBeGreaterThan(29.1);
    expect(found! / 60).toBeLessThan(29.4);
  });

  test('is null for what never holds', () => {
    expect(holdsFrom({ staysWithin: () => 0 } as unknown as Outlook, { toleranceCents: 3, horizonSeconds: 1800 }, 0)).toBeNull();
  });
});

describe('thinning', () => {
  const policy = { newest: 12, groups: 18 };

  test('leaves a usual session alone', () => {
    const readings = readAlong(creeping(-5));
    expect(thin(readings, [0], policy)).toBe(readings);
  });

  test('keeps the newest, and never averages across a turn of a peg', () => {
    const stepped = readAlong(
      (seconds) => (seconds < 500 ? 0 : 40),
      0.1,
      Array.from({ length: 1000 }, (_, index) => index),
    );
    const kept = thin(stepped, [0, 500], policy);
    expect(kept.length).toBeLessThanOrEqual(32);
    expect(kept.slice(-12)).toEqual(stepped.slice(-12));
    expect(kept.every(({ cents }) => Math.abs(cents) < 1 || Math.abs(cents - 40) < 1)).toBe(true);
  });
});

describe('small parts', () => {
  test('Theil–Sen has no line for a single moment', () => {
    expect(
      theilSen([
        { x: 1, y: 2 },
        { x: 1, y: 3 },
      ]),
    ).toBeNull();
  });

  test('the 5th and 95th percentile of a standard normal are ∓1.645', () => {
    const normal = [{ weight: 1, mean: 0, variance: 1 }];
    expect(quantileOf(normal, 0.05)).toBeCloseTo(-1.645, 1);
    expect(shareBelow(normal, 1.645)).toBeCloseTo(0.95, 4);
  });

  test('durations are said as a player says them', () => {
    expect([40, 750, 5400, 9000, 3 * 86_400].map(inWords)).toEqual([
      'about a minute',
      'about 13 minutes',
      'about 2 hours',
      'about 3 hours',
      'about 3 days',
    ]);
  });
});
