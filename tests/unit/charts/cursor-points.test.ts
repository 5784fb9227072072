import { describe, expect, test } from 'vitest';
import { shareDown } from '../../../src-renderer/charts/board-picture.ts';
import { nearestTo } from '../../../src-renderer/charts/cursor-points.ts';

const points = [0.1, 0.2, 0.6, 0.61].map((along, index) => ({ along, down: 0.5, words: `reading ${index}` }));

describe('the cursor of a chart', () => {
  test('stands on the reading nearest to the pointer, of two equally near on the earlier', () => {
    expect([0, 0.15, 0.16, 0.604, 0.606, 2].map((along) => nearestTo(points, along))).toEqual([0, 0, 1, 2, 3, 3]);
    expect(nearestTo([], 0.5)).toBeNull();
  });
});

describe('a board', () => {
  test('has the sharp side above the string and the flat side below; what is beyond it lies on its edge', () => {
    const board = { lowestCents: -10, highestCents: 30 };
    expect([30, 0, -10, 90, -90].map((cents) => shareDown(board, cents))).toEqual([0, 0.75, 1, 0, 1]);
  });
});
