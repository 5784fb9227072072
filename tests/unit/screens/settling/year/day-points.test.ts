import { expect, test } from 'vitest';
import { dayPoints } from '../../../../../src-renderer/screens/settling/year/day-points.ts';

const moment = (month: number, date: number): number => new Date(2026, month, date, 20).getTime();
const board = {
  axis: { kind: 'linear', from: moment(0, 1), until: moment(11, 31) },
  lowestCents: -20,
  highestCents: 20,
  toleranceCents: 3,
  stringWidth: 2,
  frets: [],
} as const;

test('the cursor of a year finds its days with what was heard, and new strings, in the order of the calendar', () => {
  const days = [
    { at: moment(1, 14), lowest: -12, highest: 1.2, last: -3, count: 7 },
    { at: moment(10, 15), lowest: 0.2, highest: 0.2, last: 0.2, count: 1 },
  ];
  const found = dayPoints({ days, changes: [{ at: moment(6, 2), noted: null }] }, board, moment(10, 15));
  expect(found.map(({ words }) => words.replaceAll('\u00A0', ' '))).toEqual([
    '14 February: 3 c flat, from −12 to 1 c',
    '2 July: new string',
    'today: on pitch',
  ]);
  expect(found[0]?.down).toBeCloseTo(23 / 40, 9);
});
