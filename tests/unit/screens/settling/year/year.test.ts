import { describe, expect, test } from 'vitest';
import { boundOf, monthsOf, yearRows } from '../../../../../src-renderer/screens/settling/year/year-rows.ts';
import {
  ageWords,
  assumedWords,
  farthestWords,
  settleWords,
  setWords,
} from '../../../../../src-renderer/screens/settling/year/year-words.ts';
import { instrumentOf } from '../../wren.ts';

const day = 86_400_000;
const until = new Date(2026, 10, 26).getTime();
const from = until - 365 * day;
const now = new Date(2026, 10, 25, 20, 24).getTime();
const plain = instrumentOf('ukulele-tenor-high-g', 'Wren');
const wren = { ...plain, stringSet: { ...plain.stringSet, fittedAt: now - 118 * day } };
const first = { ...plain.stringSet, id: 'wren-first', fittedAt: now - 571 * day };

const heard = (course: number, daysAgo: number, lowestCents: number, highestCents: number) => ({
  course,
  string: 0,
  bucket: 364 - daysAgo,
  count: 7,
  meanCents: 0,
  lowestCents,
  highestCents,
  lastAt: now - daysAgo * day,
  lastCents: highestCents,
  lastSigmaCents: 0.3,
});
const year = {
  from,
  until,
  days: [heard(3, 200, -4, 2), heard(3, 10, -12, 1), heard(2, 10, -1, 1)],
  sets: [first, wren.stringSet].map((stringSet) => ({ stringSet, lastHeardAt: null })),
};
const change = {
  id: 'change',
  stringSetId: 'wren-set',
  at: now - 30 * day,
  course: 3,
  string: 0,
  material: 'fluorocarbon' as const,
  wound: false,
  diameterMillimetres: null,
  words: '',
};

describe('a year of an instrument', () => {
  const rows = yearRows({ overview: wren, year, changes: [change], now });

  test('has a row a string, numbered as the player counts, with the days on which it was heard', () => {
    expect(rows.map(({ number, days }) => [number, days.length])).toEqual([
      [4, 0],
      [3, 0],
      [2, 1],
      [1, 2],
    ]);
  });

  test('marks new sets that came in the year, and the string that was changed by itself, which is younger than the others', () => {
    expect(rows[0]?.changes).toEqual([{ at: wren.stringSet.fittedAt, noted: null }]);
    expect(rows[3]?.changes).toEqual([
      { at: wren.stringSet.fittedAt, noted: null },
      { at: change.at, noted: change },
    ]);
    expect(rows.map(({ ageDays }) => Math.round(ageDays))).toEqual([118, 118, 118, 30]);
  });

  test('shows all strings to the same bound, wide enough for the farthest of them and never endless', () => {
    expect(boundOf(rows)).toBe(16);
    expect(boundOf(rows.slice(0, 2))).toBe(14);
    expect(boundOf(yearRows({ overview: wren, year: { ...year, days: [heard(0, 1, -300, 0)] }, changes: [], now }))).toBe(42);
  });

  test('names the months that begin in it', () => {
    const months = monthsOf(year).map(({ words }) => words);
    expect(months).toHaveLength(12);
    expect(months[0]).toBe('Dec');
  });
});

describe('its words', () => {
  test('settle times are said as players say them', () => {
    expect([0, 720, 3 * 3600, 4 * 86_400, null].map(settleWords)).toEqual([
      'at once',
      'in about 12 minutes',
      'in about 3 hours',
      'in about 4 days',
      'not within 30 days',
    ]);
  });

  test('what a string taught stands beside what is assumed of its kind', () => {
    const place = { course: 0, string: 0 };
    expect(assumedWords({ ...place, learned: 720, assumed: 1800 })).toBe('30 minutes assumed of its kind');
    expect(assumedWords({ ...place, learned: 720, assumed: 722 })).toBe('as assumed of its kind');
  });

  test('age, and how far it was off at most', () => {
    expect([0.4, 1.9, 118].map(ageWords)).toEqual(['new today', '1 day on', '118 days on']);
    const [, , , row] = yearRows({ overview: wren, year, changes: [], now });
    expect(farthestWords(row!, now)).toBe('at most 12\u00A0c flat, 15 November');
    expect(farthestWords({ days: [] }, now)).toBe('not heard in this year');
  });

  test('the set that is on, and on how many days any string of it was heard', () => {
    const rows = yearRows({ overview: wren, year, changes: [], now });
    expect(setWords(wren.stringSet, rows)).toBe('First set, fitted 30 July 2026. Heard on 2 days of this year.');
  });
});
