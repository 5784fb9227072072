import { describe, expect, test } from 'vitest';
import type { Reading } from '#shared/log/index.ts';
import { eventsOf, loggedOf } from '../../../../src-renderer/screens/settling/events.ts';
import { readingOf } from '../wren.ts';
import { clock, now, stringRow } from './support.ts';

const string = stringRow();
const reading = (minute: number, id: string): Reading => ({ ...readingOf(2, 329, 329.628, clock(20, minute) * 1000), id });
const log = {
  retunes: [{ startedAt: clock(20, 3) * 1000 }] as never,
  turns: [],
  changes: [],
  readings: [reading(6, 'first'), reading(16, 'second')],
  wrong: [reading(12, 'a knock'), { ...reading(12, 'of another string'), course: 0 }, { ...reading(1, 'before the retune') }],
};

describe('the table of a string', () => {
  test('tells what was turned, heard and is expected, in the order of time', () => {
    const events = eventsOf(string, now, { counting: [], wrong: [] });
    expect(events.map(({ what }) => what)).toEqual([
      'peg turned, loosened by 200 c',
      'heard',
      'heard',
      'expected now',
      'expected in half an hour',
    ]);
  });

  test('has every reading with its row of the log, so that it can be marked as wrong', () => {
    const events = eventsOf(string, now, loggedOf(log, 2, 0));
    expect(events.flatMap(({ marks }) => (marks?.isWrong === false ? [marks.reading.id] : []))).toEqual(['first', 'second']);
  });

  test('keeps a reading that was marked as wrong in its place, of this string and this retune alone', () => {
    const events = eventsOf(string, now, loggedOf(log, 2, 0));
    const wrong = events.filter(({ marks }) => marks?.isWrong === true);
    expect(wrong.map(({ what, marks }) => [what, marks?.reading.id])).toEqual([['heard, marked as wrong', 'a knock']]);
    expect(events.indexOf(wrong[0]!)).toBe(2);
  });
});
