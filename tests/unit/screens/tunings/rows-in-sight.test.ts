import { describe, expect, test } from 'vitest';
import { type Lie, rowByKey, rowsInSight, topOf, topToShow } from '../../../../src-renderer/screens/tunings/rows-in-sight.ts';

const closed: Lie = { count: 5000, rowHeight: 50, open: null };
const open: Lie = { ...closed, open: { index: 10, height: 350 } };

describe('the rows of a long list', () => {
  test('lie below one another, those after an open one as much lower as it is taller', () => {
    expect([0, 10, 11, 5000].map((index) => topOf(closed, index))).toEqual([0, 500, 550, 250_000]);
    expect([0, 10, 11, 5000].map((index) => topOf(open, index))).toEqual([0, 500, 850, 250_300]);
  });

  test('are drawn where they are in sight, with some to spare', () => {
    expect(rowsInSight(closed, { top: 1000, height: 100 }, 1, [])).toEqual([19, 20, 21, 22, 23]);
    expect(rowsInSight(closed, { top: 0, height: 100 }, 1, [])).toEqual([0, 1, 2, 3]);
    expect(rowsInSight(closed, { top: 249_950, height: 100 }, 1, [])).toEqual([4998, 4999]);
  });

  test('an open row takes the place of several', () => {
    expect(rowsInSight(open, { top: 520, height: 100 }, 0, [])).toEqual([10]);
    expect(rowsInSight(open, { top: 520, height: 330 }, 0, [])).toEqual([10, 11]);
    expect(rowsInSight(open, { top: 490, height: 20 }, 0, [])).toEqual([9, 10]);
    expect(rowsInSight(open, { top: 850, height: 40 }, 0, [])).toEqual([11]);
  });

  test('every row between the first and the last drawn is where the eye is, wherever the list is scrolled to', () => {
    for (let top = 0; top < 1500; top += 7) {
      const drawn = rowsInSight(open, { top, height: 120 }, 0, []);
      const [first = -1, last = -1] = [drawn[0], drawn.at(-1)];
      expect(topOf(open, first)).toBeLessThanOrEqual(top);
      expect(topOf(open, last + 1)).toBeGreaterThan(top + 120);
    }
  });

  test('the one that has the focus is kept, out of sight too, and nothing is drawn of an empty list', () => {
    expect(rowsInSight(closed, { top: 1000, height: 40 }, 0, [3, -1, 5000])).toEqual([3, 20]);
    expect(rowsInSight({ ...closed, count: 0 }, { top: 0, height: 100 }, 2, [0])).toEqual([]);
    expect(rowsInSight({ ...closed, count: 2 }, { top: 9000, height: 100 }, 2, [])).toEqual([0, 1]);
  });

  test('the list moves as little as it can to show one', () => {
    const view = { top: 1000, height: 200 };
    expect([5, 20, 22, 23, 30].map((index) => topToShow(closed, view, index))).toEqual([250, 1000, 1000, 1000, 1350]);
    expect(topToShow(open, view, 10)).toBe(500);
  });

  test('keys go to the next row, a page on or to an end, and stop there', () => {
    const go = (key: string, from: number) => rowByKey(key, from, { count: 30, page: 10 });
    expect([go('ArrowDown', 4), go('ArrowUp', 4), go('PageDown', 4), go('PageUp', 14), go('Home', 4), go('End', 4)]).toEqual([
      5, 3, 14, 4, 0, 29,
    ]);
    expect([go('ArrowUp', 0), go('ArrowDown', 29), go('PageDown', 25)]).toEqual([0, 29, 29]);
    expect(go('a', 4)).toBeNull();
  });
});
