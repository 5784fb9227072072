import { describe, expect, test } from 'vitest';
import { headline, nextCheck, nextStep } from '../../../../src-renderer/screens/settling/headline.ts';
import { clock, minutes, now, row, stringRow } from './support.ts';

const holding = (number: number) => row(number, 'G4', stringRow());
const settling = (number: number, holdsFromSeconds: number | null = now + minutes(30)) =>
  row(number, 'Bb3', stringRow({ verdict: 'settling', holdsFromSeconds, nextCheckSeconds: clock(20, 40) }));
const slipping = (number: number) => row(number, 'Eb4', stringRow({ verdict: 'slipping', nextCheckSeconds: clock(20, 34) }));
const unheard = (number: number, since = clock(20, 4)) => row(number, 'A4', stringRow({ verdict: 'unheard' }, { since, heard: [] }));

const facts = { now, toleranceCents: 3 };

describe('the headline', () => {
  test('counts what holds and names what slips', () => {
    expect(headline([holding(4), settling(3), slipping(2), holding(1)], now)).toBe('2 of 4 hold, course 2 is slipping');
    expect(headline([holding(4), slipping(3), slipping(2), slipping(1)], now)).toBe('1 of 4 holds, courses 3, 2 and 1 are slipping');
    expect(headline([settling(2), slipping(1)], now)).toBe('Course 1 is slipping');
  });

  test('says so when all do the same', () => {
    expect(headline([4, 3, 2, 1].map(holding), now)).toBe('All four hold');
    expect(
      headline(
        [4, 3, 2, 1].map((number) => settling(number)),
        now,
      ),
    ).toBe('All four are settling');
  });

  test('names courses that were not heard before those that settle', () => {
    expect(headline([holding(4), settling(3), unheard(2), holding(1)], now)).toBe('2 of 4 hold, course 2 not heard yet');
    expect(headline([holding(4), settling(3)], now)).toBe('1 of 2 holds, course 3 is settling');
  });

  test('tells since when nothing was heard, by the clock today and by the day before', () => {
    expect(headline([unheard(2), unheard(1)], now)).toBe('Nothing heard since 20:04');
    const nineDaysAgo = now - 9 * 86_400;
    expect(headline([unheard(2, nineDaysAgo), unheard(1, nineDaysAgo)], now)).toBe('Nothing heard since 16 November');
  });
});

describe('the sentence under it', () => {
  test('leaves slipping courses to their warnings, and never calls an instrument ready that has one', () => {
    expect(nextStep([holding(4), slipping(2)], facts)).toEqual({ strong: '', rest: '' });
    expect(nextStep([settling(3, clock(20, 40)), slipping(2)], facts).strong).toBe('Steady within ±3 c from about 20:40.');
  });

  test('tells from when on the last of them is steady', () => {
    const rows = [settling(3, clock(20, 40)), settling(2, clock(20, 51)), holding(1)];
    expect(nextStep(rows, facts).strong).toBe('Steady within ±3 c from about 20:51.');
    expect(nextStep([settling(3, null), holding(1)], facts).strong).toBe('Course 3 will not be steady within 30 days.');
  });

  test('asks for a touch-up where a string is still, but off its pitch', () => {
    expect(nextStep([settling(3, now), holding(1)], facts).strong).toBe('Touch up course 3:');
  });

  test('says until when nothing is expected to leave the tolerance', () => {
    expect(nextStep([holding(2), holding(1)], facts)).toEqual({
      strong: 'Ready to play:',
      rest: ' nothing is expected to leave ±3 c before 20:54.',
    });
  });
});

describe('the next useful check', () => {
  const planned = (...courses: number[]) => ({ courses, at: clock(20, 34) * 1000 });

  test('is the one that the player will be reminded of while courses still move', () => {
    expect(nextCheck([settling(3), holding(1)], now, planned(1))).toBe('Next useful check at 20:34: course 3. You will be reminded.');
    expect(nextCheck([settling(3), settling(2)], clock(20, 35), planned(1, 2))).toBe('The next useful check is now: courses 3 and 2.');
  });

  test('where all hold is the soonest that would tell anything', () => {
    const calm = row(1, 'A4', stringRow({ nextCheckSeconds: clock(20, 27) }));
    expect(nextCheck([holding(3), calm], now, null)).toBe('Next useful check at 20:27: course 1.');
    expect(nextCheck([holding(1)], now, null)).toBe('No check is needed before 20:54.');
  });

  test('is now for a course that was not heard', () => {
    expect(nextCheck([holding(2), unheard(1)], now, null)).toBe('The next useful check is now: course 1.');
    expect(nextCheck([unheard(1)], now, null)).toBe('The next useful check is now.');
  });

  test('waits for the player’s eye where a string slips and another reading would tell nothing', () => {
    expect(nextCheck([slipping(2), holding(1)], now, null)).toBe('Hear course 2 again once you have looked.');
  });
});
