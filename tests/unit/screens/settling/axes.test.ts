import { describe, expect, test } from 'vitest';
import { clockAxis, sinceAxis } from '../../../../src-renderer/screens/settling/axes.ts';
import { shareAlong } from '../../../../src-renderer/charts/axis.ts';
import { clock, minutes, now } from './support.ts';

const words = ({ ticks }: ReturnType<typeof clockAxis>): readonly string[] => ticks.map((tick) => tick.words);

describe('the clock axis', () => {
  test('runs in whole ten minutes over an evening’s retune', () => {
    expect(words(clockAxis(clock(20, 3), now))).toEqual(['19:50', '20:00', '20:10', '20:20', '20:30', '20:40', '20:50', '21:00']);
  });

  test('shows at least half an hour back and the half hour ahead, with a few names and room at its end', () => {
    for (const ago of [1, 16, 56, 78, 140, 200, 400, 1000, 2000, 5000, 13_000, 40_000, 300_000]) {
      const ticked = clockAxis(now - minutes(ago), now);
      expect(ticked.axis.from).toBeLessThanOrEqual(now - minutes(Math.max(ago, 30)));
      expect(ticked.axis.until).toBeGreaterThanOrEqual(now + minutes(35));
      expect(shareAlong(ticked.axis, now + minutes(30))).toBeLessThan(0.94);
      expect(ticked.ticks.length).toBeGreaterThanOrEqual(4);
      expect(ticked.ticks.length).toBeLessThanOrEqual(9);
    }
  });

  test('counts in days, midnight to midnight, for a retune nine days ago', () => {
    expect(words(clockAxis(now - 9 * 86_400, now))).toEqual(['16 Nov', '18 Nov', '20 Nov', '22 Nov', '24 Nov', '26 Nov', '28 Nov']);
  });

  test('calls a midnight within the evening by its date', () => {
    expect(words(clockAxis(clock(23, 40), clock(24, 10)))).toContain('26 Nov');
  });

  test('serves an instrument without a retune', () => {
    expect(clockAxis(null, now).axis.from).toBeLessThanOrEqual(now - minutes(30));
  });
});

describe('the axis of time since the peg move', () => {
  test('names powers of time that stand clear of one another', () => {
    expect(words(sinceAxis(minutes(20)))).toEqual(['20 s', '1 min', '3 min', '10 min', '30 min', '1 h']);
    for (const longest of [10, 100, 1000, 10_000, 1e5, 1e6, 1e7]) {
      const { axis, ticks } = sinceAxis(longest);
      const shares = ticks.map(({ seconds }) => shareAlong(axis, seconds));
      for (const [index, share] of shares.entries()) if (index > 0) expect(share - (shares[index - 1] ?? 0)).toBeGreaterThan(0.099);
      expect(shareAlong(axis, Math.max(longest, 60) + minutes(30))).toBeCloseTo(0.93, 6);
    }
  });
});
