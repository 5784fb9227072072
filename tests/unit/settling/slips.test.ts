import { describe, expect, test } from 'vitest';
import type { StringLog } from '#shared/settling/index.ts';
import { seededRandom } from '#shared/simulation/strings/index.ts';
import { creeping, judge, logWith, nylon, readAlong, usualMoments } from './log.ts';

const slipped = (at: number, cents: number) => (seconds: number) => creeping(-5)(seconds) + (seconds >= at ? cents : 0);

const jumped = (seconds: number) => creeping(-5)(seconds) + (seconds >= 150 ? -6 : 0);

describe('a slip', () => {
  test('of 8 c is found by the second reading after it, with its size', () => {
    const judged = judge(logWith(readAlong(slipped(150, -8)).slice(0, 6)));
    expect(judged.slips).toHaveLength(1);
    expect(judged.slips[0]!.atSeconds).toBe(200);
    expect(judged.slips[0]!.cents).toBeGreaterThan(-10);
    expect(judged.slips[0]!.cents).toBeLessThan(-6);
    expect(judged.verdict).toBe('slipping');
    expect(judged.why).toMatch(/^slipped about [6-9] c flat/);
  });

  test('and another after it are two, each with its own size', () => {
    const minutes = [9, 18, 27, 36, 45, 54, 70, 75, 80];
    const cents = [-1.2, -0.8, -0.6, -0.5, -9.6, -9.5, -21, -21, -21];
    const readings = minutes.map((minute, index) => ({ atSeconds: 60 * minute, cents: cents[index]!, sigmaCents: 0.3 }));
    const { slips, keepsSlipping } = judge(logWith(readings));
    expect(slips.map(({ atSeconds }) => atSeconds / 60)).toEqual([45, 70]);
    expect(slips.map((slip) => Math.abs(slip.cents))).toEqual([expect.closeTo(9.1, -0.3), expect.closeTo(11.5, -0.3)]);
    expect(keepsSlipping).toBe(true);
  });

  test('is not cried after one reading only: that may be a bad reading', () => {
    expect(judge(logWith(readAlong(slipped(150, -8)).slice(0, 5))).slips).toEqual([]);
  });

  test('is not a single reading of something else in the middle of a session', () => {
    const readings = readAlong(creeping(-5)).map((reading, index) => (index === 4 ? { ...reading, cents: reading.cents + 30 } : reading));
    expect(judge(logWith(readings)).slips).toEqual([]);
  });

  test('in either direction: a string caught in the nut lets go sharp', () => {
    expect(judge(logWith(readAlong(slipped(150, 8)))).slips[0]!.cents).toBeGreaterThan(6);
  });

  test('does not spoil the forecast: the creep goes on from where the slip left it', () => {
    const judged = judge(logWith(readAlong(slipped(150, -8))));
    expect(Math.abs(judged.forecast(2400).cents - slipped(150, -8)(2400))).toBeLessThan(2.5);
  });

  test('is not mere creep, however strong: a new string may fall 40 c in ten minutes', () => {
    const readings = readAlong(creeping(-40));
    const judged = judge({ ...logWith(readings), string: { ...nylon, daysSinceChange: 0.5 } });
    expect(judged.slips).toEqual([]);
    expect(judged.verdict).toBe('settling');
  });

  test('is not the body giving way to another peg', () => {
    const other: StringLog = { string: nylon, moves: [{ atSeconds: 150, cents: 200 }], readings: [], past: [] };
    expect(judge(logWith(readAlong(jumped)), 600, [other]).slips).toEqual([]);
    expect(judge(logWith(readAlong(jumped)), 600).slips).toHaveLength(1);
  });

  test('is cried in at most 2 of 100 sessions that only creep, with readings of sigma 1', () => {
    const random = seededRandom(3);
    const cried = Array.from(
      { length: 100 },
      () => judge(logWith(readAlong(creeping(-random.between(1, 12)), 1, usualMoments, random))).slips.length > 0,
    );
    expect(cried.filter(Boolean).length).toBeLessThanOrEqual(2);
  });
});

const earlier = (from: number, curve: (seconds: number) => number) => ({
  moves: [{ atSeconds: from, cents: -200 }],
  readings: readAlong(
    (seconds) => -curve(seconds - from),
    0.5,
    usualMoments.map((at) => from + at),
  ),
});

describe('keeps slipping', () => {
  const day = 86_400;

  test('is two slips within three retunes', () => {
    const past = [earlier(-2 * day, slipped(150, 8)), earlier(-day, creeping(-5))];
    const judged = judge(logWith(readAlong(slipped(150, -8)), undefined, past));
    expect(judged.keepsSlipping).toBe(true);
    expect(judged.why).toMatch(/^keeps slipping: 2 slips within three retunes, the last of about \d+ c flat; now \d+ c flat$/);
  });

  test('is told by the two retunes before alone, of a string that only creeps now: no slide, and the sentence says when', () => {
    const past = [earlier(-2 * day, slipped(150, 8)), earlier(-day, slipped(150, 8))];
    const judged = judge(logWith(readAlong(creeping(-5)), undefined, past));
    expect(judged.keepsSlipping).toBe(true);
    expect(judged.verdict).not.toBe('slipping');
    expect(judged.slips).toEqual([]);
    expect(judged.why).toMatch(/; but it slipped 2 times within three retunes$/);
  });

  test('is not one slip in three retunes', () => {
    const past = [earlier(-2 * day, creeping(-5)), earlier(-day, creeping(-5))];
    expect(judge(logWith(readAlong(slipped(150, -8)), undefined, past)).keepsSlipping).toBe(false);
  });

  test('is a slide that does not slow', () => {
    const judged = judge(logWith(readAlong((seconds) => creeping(-3)(seconds) - seconds / 30)));
    expect(judged.keepsSlipping).toBe(true);
    expect(judged.verdict).toBe('slipping');
    // 120 c an hour besides the creep, some of which a string nobody knows yet might creep by itself
    const [, told] = /^sliding flat by about (\d+) c an hour and not slowing$/.exec(judged.why)!;
    expect(Number(told)).toBeGreaterThan(70);
    expect(Number(told)).toBeLessThan(160);
  });
});
