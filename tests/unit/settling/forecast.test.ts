import { describe, expect, test } from 'vitest';
import { seededRandom } from '#shared/simulation/strings/index.ts';
import { expectedDriftCents, expectedSettleSeconds, learnString, type RetuneLog } from '#shared/settling/index.ts';
import { creeping, judge, logWith, nylon, policy, readAlong, usualMoments } from './log.ts';

const day = 86_400;
const width = ({ low, high }: { low: number; high: number }) => high - low;

const at = (offset: number) => {
  const readings = readAlong(creeping(-5)).map((reading) => ({ ...reading, atSeconds: reading.atSeconds + offset }));
  return judge(logWith(readings, [{ atSeconds: offset, cents: 200 }])).forecast(offset + 2400).cents;
};

describe('the forecast', () => {
  test('follows the readings and not the prior once there are some', () => {
    const judged = judge(logWith(readAlong(creeping(-9), 0.3)));
    expect(Math.abs(judged.forecast(2400).cents - creeping(-9)(2400))).toBeLessThan(1.5);
    expect(judged.forecast(2400).low).toBeLessThan(creeping(-9)(2400));
    expect(judged.forecast(2400).high).toBeGreaterThan(creeping(-9)(2400));
  });

  test('shrugs off one reading of something else', () => {
    const readings = readAlong(creeping(-9), 0.3).map((reading, index) => (index === 6 ? { ...reading, cents: 25 } : reading));
    expect(Math.abs(judge(logWith(readings)).forecast(2400).cents - creeping(-9)(2400))).toBeLessThan(2);
  });

  test('of two readings that disagree, believes the one near the wanted pitch', () => {
    const readings = [
      { atSeconds: 30, cents: 31, sigmaCents: 0.5 },
      { atSeconds: 60, cents: 0.4, sigmaCents: 0.5 },
    ];
    expect(Math.abs(judge(logWith(readings)).forecast(61).cents)).toBeLessThan(3);
  });

  test('is narrower with more readings, and wider farther ahead', () => {
    const readings = readAlong(creeping(-5), 0.5);
    const few = judge(logWith(readings.slice(0, 2)), 600).forecast(2400);
    const many = judge(logWith(readings), 600);
    expect(width(many.forecast(2400))).toBeLessThan(width(few));
    expect(width(many.forecast(7200))).toBeGreaterThan(width(many.forecast(2400)));
  });

  test('follows a string that creeps ten times as far as any assumed: its readings are not taken for bad ones', () => {
    const judged = judge(logWith(readAlong(creeping(-100))));
    expect(Math.abs(judged.forecast(600).cents - creeping(-100)(600))).toBeLessThan(3);
    expect(Math.abs(judged.forecast(2400).cents - creeping(-100)(2400))).toBeLessThan(12);
    expect(judged.slips).toEqual([]);
  });

  test('is the same whatever the clock starts at', () => {
    expect(at(1.8e9)).toBeCloseTo(at(0), 3);
    expect(at(-5000)).toBeCloseTo(at(0), 3);
  });

  test('knows nothing later than now', () => {
    const readings = readAlong(creeping(-5));
    expect(judge(logWith(readings), 200).forecast(2400)).toEqual(judge(logWith(readings.slice(0, 5)), 200).forecast(2400));
  });

  test('of a hundred thousand readings tells what a few of them tell', () => {
    const moments = Array.from({ length: 100_000 }, (_, index) => index * 0.5);
    const judged = judge(logWith(readAlong(creeping(-6), 0.7, moments)));
    expect(Math.abs(judged.forecast(50_000).cents - creeping(-6)(50_000))).toBeLessThan(0.7);
    expect(judged.slips).toEqual([]);
  });
});

const retune = (from: number, cents: number, rate: number): RetuneLog => ({
  moves: [{ atSeconds: from, cents }],
  readings: readAlong(
    (seconds) => creeping(rate * Math.sign(cents))(seconds - from),
    0.4,
    usualMoments.map((at) => from + at),
    seededRandom(from),
  ),
});

const plan = (known: readonly RetuneLog[]) => ({
  lesson: learnString({ string: nylon, past: known, nowSeconds: 0 }),
  moves: [{ atSeconds: 0, cents: 200 }],
  nowSeconds: 0,
});

describe('learning from earlier retunes', () => {
  const past = [1, 2, 3, 4, 5, 6].map((index) => retune((index - 7) * 2 * day, index % 2 === 0 ? 200 : -200, -12));

  test('a string that has always crept 12 c a decade is expected to, before its first reading', () => {
    const span = { fromSeconds: 60, untilSeconds: 1860 };
    const truth = creeping(-12)(1860) - creeping(-12)(60);
    const [assumed, learned] = [expectedDriftCents(plan([]), span), expectedDriftCents(plan(past), span)];
    expect(assumed.cents).toBeCloseTo(-6, 0);
    expect(Math.abs(learned.cents - truth)).toBeLessThan(2);
    expect(width(learned)).toBeLessThan(width(assumed));
  });

  test('the expected settle time of a plan grows with the rate and falls with the tolerance', () => {
    const lesson = learnString({ string: nylon, past: [], nowSeconds: 0 });
    const settle = (cents: number, toleranceCents: number) =>
      expectedSettleSeconds({ lesson, moves: [{ atSeconds: 0, cents }], nowSeconds: 0 }, { ...policy, toleranceCents })!;
    expect(settle(300, 3)).toBeGreaterThan(settle(100, 3));
    expect(settle(300, 5)).toBeLessThan(settle(300, 2));
    expect(settle(0, 3)).toBe(0);
  });
});
