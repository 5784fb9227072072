import { describe, expect, test } from 'vitest';
import type { Reading } from '#shared/settling/index.ts';
import { sittings, wanderCents } from '#shared/settling/weather.ts';
import { seededRandom } from '#shared/simulation/strings/index.ts';
import { creeping, judge, logWith, nylon, readAlong, usualMoments } from './log.ts';

const day = 86_400;
const hour = 3600;

describe('a log of many days', () => {
  const moments = [
    ...usualMoments,
    ...Array.from({ length: 10 }, (_, index) => [index * day + 9 * hour, index * day + 9 * hour + 120, index * day + 20 * hour]).flat(),
  ];
  const wandering = (seconds: number) => creeping(-4)(seconds) + 4 * Math.sin((2 * Math.PI * seconds) / day);

  test('shows weather, and no slip', () => {
    const random = seededRandom(6);
    const cried = Array.from({ length: 10 }, () => judge(logWith(readAlong(wandering, 0.6, moments, random))).slips);
    expect(cried.flat()).toEqual([]);
  });

  test('is wider tomorrow than in half an hour', () => {
    const { forecast } = judge(logWith(readAlong(wandering, 0.6, moments)));
    const width = (ahead: number) => forecast(moments.at(-1)! + ahead).high - forecast(moments.at(-1)! + ahead).low;
    expect(width(day)).toBeGreaterThan(2 * width(1800));
  });

  test('still shows a peg that gave way by 45 c overnight, once it is read twice', () => {
    const looked = [...usualMoments, 20 * hour, 20 * hour + 120, 33 * hour, 33 * hour + 120];
    const slipped = readAlong((seconds) => wandering(seconds) - (seconds > day ? 45 : 0), 0.6, looked);
    expect(judge(logWith(slipped.slice(0, -1))).slips).toEqual([]);
    const [slip] = judge(logWith(slipped)).slips;
    expect(slip!.atSeconds).toBe(33 * hour);
    expect(slip!.cents).toBeLessThan(-25);
  });

  test('keeps the first sitting and the latest six', () => {
    const { readings, gaps } = sittings(readAlong(wandering, 0.6, moments));
    expect(readings.slice(0, usualMoments.length).map(({ atSeconds }) => atSeconds)).toEqual(usualMoments);
    expect(gaps).toHaveLength(6);
    expect(readings.at(-1)!.atSeconds).toBe(moments.at(-1));
  });

  test('weather is taken to wander further the longer one does not look, up to a limit', () => {
    expect([0, 1, 3, 24, 1000].map(wanderCents)).toEqual([0, 1.2, expect.closeTo(3.6), 8, 8]);
  });
});

describe('odd logs', () => {
  const at = (atSeconds: number, cents: number, sigmaCents = 0.5): Reading => ({ atSeconds, cents, sigmaCents });
  const odd: readonly (readonly [string, readonly Reading[], readonly { atSeconds: number; cents: number }[]])[] = [
    ['nothing at all', [], []],
    ['one reading and no move', [at(5, 1)], []],
    ['a reading at the very moment of the move', [at(0, 1), at(10, 1)], [{ atSeconds: 0, cents: 100 }]],
    ['two readings at one moment', [at(10, 1), at(10, 1.5), at(10, 0.5), at(20, 1)], [{ atSeconds: 0, cents: 100 }]],
    ['a sigma of nothing', [at(10, 1, 0), at(20, 1, 0), at(40, 1, 0), at(80, 1, 0)], [{ atSeconds: 0, cents: 100 }]],
    ['a whole octave off', [at(10, 1200), at(20, 1200), at(60, 1199)], [{ atSeconds: 0, cents: 100 }]],
    [
      'a dozen turns within a minute',
      [at(70, 2), at(90, 2)],
      Array.from({ length: 12 }, (_, index) => ({ atSeconds: index * 5, cents: 20 - index })),
    ],
  ];
  test.each(odd.map(([name, readings, moves]) => ({ name, readings, moves })))(
    '$name: an answer with ordered, finite numbers',
    ({ readings, moves }) => {
      const judged = judge({ string: nylon, readings, moves, past: [{ moves: [], readings: [] }] }, 100);
      for (const ahead of [0, 60, 1800, day]) {
        const { cents, low, high } = judged.forecast(100 + ahead);
        expect([cents, low, high].every(Number.isFinite)).toBe(true);
        expect(low).toBeLessThanOrEqual(cents);
        expect(cents).toBeLessThanOrEqual(high);
      }
      expect(judged.why).not.toMatch(/NaN|Infinity|undefined/);
    },
  );
});
