import { describe, expect, test } from 'vitest';
import { clockAxis, sinceAxis } from '../../../../src-renderer/screens/settling/axes.ts';
import { coursePicture } from '../../../../src-renderer/screens/settling/course-picture.ts';
import { clock, evenly, minutes, now, row, stringRow } from './support.ts';

const facts = { now, toleranceCents: 3 };
const evening = clockAxis(clock(20, 3), now);

describe('the picture of a course', () => {
  test('has its fit from the first reading until now, and its forecast from there to the saddle', () => {
    const { strings } = coursePicture(row(3, 'Bb3', stringRow({ forecast: evenly(-2, 0.1) })), evening, facts);
    const curve = strings[0]?.curve[0] ?? [];
    expect(curve[0]?.seconds).toBe(clock(20, 6));
    expect(curve.at(-1)?.seconds).toBeCloseTo(evening.axis.until, 3);
    expect(curve.find(({ seconds }) => seconds === now)).toEqual({ seconds: now, cents: -2, low: -3, high: -1 });
    expect(strings[0]?.fittedUntil).toBe(now);
  });

  test('counts from each string’s own peg move on the log axis', () => {
    const picture = coursePicture(row(3, 'Bb3', stringRow()), sinceAxis(minutes(20)), facts);
    expect(picture.now).toBe(minutes(20));
    expect(picture.ownTurns).toEqual([0]);
    expect(picture.strings[0]?.readings.map(({ seconds }) => seconds)).toEqual([minutes(2), minutes(12)]);
    expect(picture.ahead?.seconds).toBe(minutes(50));
  });

  test('breaks the curve a little before a slip and takes it up after it', () => {
    const slips = [{ atSeconds: clock(20, 16), cents: -8 }];
    const { strings, slips: marks } = coursePicture(row(2, 'Eb4', stringRow({ verdict: 'slipping', slips })), evening, facts);
    const [before, after] = strings[0]?.curve ?? [];
    expect(before?.at(-1)?.seconds).toBeLessThan(clock(20, 16));
    expect(before?.at(-1)?.seconds).toBeGreaterThan(clock(20, 15));
    expect(after?.[0]?.seconds).toBe(clock(20, 16));
    expect(marks).toEqual([clock(20, 16)]);
  });

  test('shows ten cents to both sides at least, and farther down where a string has fallen, with room for the pegs’ ticks', () => {
    expect(coursePicture(row(4, 'G4', stringRow()), evening, facts)).toMatchObject({ lowestCents: -14, highestCents: 14 });
    expect(coursePicture(row(2, 'Eb4', stringRow({ forecast: evenly(-22) })), evening, facts)).toMatchObject({
      lowestCents: -31,
      highestCents: 14,
    });
    expect(coursePicture(row(2, 'Eb4', stringRow({ forecast: evenly(300) })), evening, facts)).toMatchObject({
      lowestCents: -14,
      highestCents: 42,
    });
  });

  test('draws no curve and nothing hollow where the forecast says nothing', () => {
    const daysAgo = stringRow({ verdict: 'unheard', forecast: evenly(0, 0, 900) }, { heard: [] });
    const picture = coursePicture(row(1, 'A4', daysAgo), evening, facts);
    expect(picture.strings[0]?.curve).toEqual([]);
    expect(picture.ahead).toBeNull();
  });

  test('leaves the hollow mark out where days make it one with now', () => {
    const daysAgo = stringRow({}, { since: now - 9 * 86_400 });
    expect(coursePicture(row(1, 'A4', daysAgo), clockAxis(now - 9 * 86_400, now), facts).ahead).toBeNull();
  });
});
