import { describe, expect, test } from 'vitest';
import { againWords, doneTitle, expectWords, reachedWords } from '../../../../src-renderer/screens/retune/done-words.ts';
import { settleWords, turnWords } from '../../../../src-renderer/screens/retune/time-words.ts';
import { clockTime } from '../../../../src-renderer/ui/time.ts';

const now = Date.UTC(2026, 10, 25, 20, 3);
const minute = 60_000;

describe('before: time to turn and time to settle, apart', () => {
  test('a minute a course, and when it is done', () => {
    expect(turnWords(3, now)).toBe(`About 3 minutes to turn, done by ${clockTime(now + 3 * minute)}`);
    expect(turnWords(0, now)).toBe('Nothing to turn');
  });

  test('settling counts from the last turn', () => {
    expect(settleWords(12 * 60, 3, now)).toBe(`About 10 minutes more to settle, holds from ${clockTime(now + 15 * minute)}`);
    expect(settleWords(30, 3, now)).toBe('Holds as soon as it is turned');
    expect(settleWords(5 * 3600, 3, now)).toBe('About 5 hours more to settle; touch it up meanwhile');
    expect(settleWords(null, 3, now)).toBe('It will not settle by itself within a month');
  });
});

describe('afterwards', () => {
  const seconds = now / 1000;
  const creeping = (holds: number | null, check: number | null) => ({
    verdict: 'settling' as const,
    holdsFromSeconds: holds,
    nextCheckSeconds: check,
    forecast: (at: number) => ({ cents: (6 * (at - seconds)) / 1800 }),
  });

  test('the first check and the last string to settle count', () => {
    const words = againWords([creeping(seconds + 600, seconds + 300), creeping(seconds + 900, seconds + 540)], seconds, true);
    expect(words).toBe(`Check again at about ${clockTime(now + 5 * minute)}. It holds from about ${clockTime(now + 15 * minute)}.`);
  });

  test('a string that holds asks for no check', () => {
    const still = { ...creeping(seconds, seconds + 120), verdict: 'holding' as const };
    expect(againWords([still, creeping(seconds + 600, seconds + 300)], seconds, true)).toContain(clockTime(now + 5 * minute));
  });

  test('a check that is already over is not asked for, and one string that never settles keeps the rest from holding', () => {
    expect(againWords([creeping(seconds, seconds + 10)], seconds, true)).toBe('It holds now.');
    expect(againWords([creeping(seconds, null), creeping(seconds, seconds + 10)], seconds, false)).toBe('The others hold now.');
    expect(againWords([creeping(null, null), creeping(seconds, null)], seconds, true)).toBe('');
  });

  test('what was reached, and where it will be', () => {
    expect(reachedWords({ deviationCents: -0.42, sigmaCents: 0.2 }, false)).toBe('0.4 c below');
    expect([reachedWords(undefined, true), reachedWords(undefined, false)]).toEqual(['left as it is', 'not heard']);
    expect(expectWords(creeping(null, null), seconds, seconds + 1800)).toBe(`about 6 c sharp by ${clockTime(now + 30 * minute)}`);
    expect(expectWords(creeping(null, null), seconds, seconds + 60)).toBe('stays');
  });
});

test('the title says what the instrument is in, and that it still is where it was not retuned', () => {
  expect(doneTitle('Wren', { isRetuned: true, tuning: 'Lantern E♭ but for course 3' })).toBe('Wren is in Lantern E♭ but for course 3');
  expect(doneTitle('Wren', { isRetuned: false, tuning: 'Home' })).toBe('Wren is still in Home');
});
