import { describe, expect, test } from 'vitest';
import { beadKind, beadPath } from '../../../src-renderer/ui/bead.ts';
import { alongString } from '../../../src-renderer/ui/scale.ts';

/** Least and greatest x and y of path data that uses only M, C and a relative arc pair. */
function extent(path: string): { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number } {
  const numbers = [...path.matchAll(/-?\d+(?:\.\d+)?/gu)].map(([number]) => Number(number));
  if (path.includes('a')) {
    const [x = 0, y = 0, rx = 0, ry = 0] = numbers;
    return { left: x, right: x + 2 * rx, top: y - ry, bottom: y + ry };
  }
  const [xs, ys] = [numbers.filter((_, index) => index % 2 === 0), numbers.filter((_, index) => index % 2 === 1)];
  return { left: Math.min(...xs), right: Math.max(...xs), top: Math.min(...ys), bottom: Math.max(...ys) };
}

/** Where path data begins. */
const start = (path: string) => Number(/^M(-?[\d.]+)/u.exec(path)?.[1]);

const board = { width: 640, middle: 100, height: 40 };

describe('the scale of a course line', () => {
  test('has its aim in the middle and is the same to both sides', () => {
    expect(alongString(0)).toBe(0.5);
    expect(alongString(37) + alongString(-37)).toBeCloseTo(1, 12);
  });

  test.each([
    [3, 0.144],
    [10, 0.34],
    [50, 0.67],
    [100, 0.81],
    [200, 0.95],
  ])('%d cents lie %d of the way from the aim to the saddle', (cents, share) => {
    expect((alongString(cents) - 0.5) * 2).toBeCloseTo(share, 2);
  });

  test('far-off strings stay on the board', () => {
    expect(alongString(5000)).toBe(1);
    expect(alongString(-5000)).toBe(0);
  });
});

describe('the bead', () => {
  test('says below, above, within, or that the side is not known', () => {
    expect([beadKind(-20, 1, 3), beadKind(20, 1, 3), beadKind(2, 1, 3), beadKind(20, 15, 3)]).toEqual([
      'below',
      'above',
      'within',
      'unsure',
    ]);
  });

  test.each([0.2, 4, 12, 25])('has its middle on the reading whatever its uncertainty (±%d c)', (sigmaCents) => {
    for (const kind of ['above', 'below', 'unsure'] as const) {
      const cents = kind === 'below' ? -37 : 37;
      const { left, right } = extent(beadPath({ cents, sigmaCents, kind, ...board }));
      expect((left + right) / 2).toBeCloseTo(alongString(cents) * board.width, 1);
    }
  });

  test('lies along the string when unsure and stands upright when sure', () => {
    const shape = (sigmaCents: number) => extent(beadPath({ cents: 37, sigmaCents, kind: 'above', ...board }));
    const [sure, unsure] = [shape(0.2), shape(25)];
    expect(sure.bottom - sure.top).toBeGreaterThan(sure.right - sure.left);
    expect(unsure.right - unsure.left).toBeGreaterThan(3 * (unsure.bottom - unsure.top));
    expect(unsure.bottom - unsure.top).toBeGreaterThanOrEqual(0.45 * board.height - 0.01);
  });

  test('points towards its aim', () => {
    const above = beadPath({ cents: 37, sigmaCents: 1, kind: 'above', ...board });
    const below = beadPath({ cents: -37, sigmaCents: 1, kind: 'below', ...board });
    expect(start(above)).toBe(extent(above).left);
    expect(start(below)).toBe(extent(below).right);
  });
});
