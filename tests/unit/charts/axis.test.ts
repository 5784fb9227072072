import { describe, expect, test } from 'vitest';
import { type Axis, momentAt, shareAlong } from '../../../src-renderer/charts/axis.ts';

const clock: Axis = { kind: 'linear', from: 1000, until: 4600 };
const sincePegMove: Axis = { kind: 'log', from: 20, until: 2000 };

describe('a time axis', () => {
  test('shows its first moment at the nut and its last at the saddle', () => {
    for (const axis of [clock, sincePegMove]) {
      expect(shareAlong(axis, axis.from)).toBe(0);
      expect(shareAlong(axis, axis.until)).toBeCloseTo(1, 12);
    }
  });

  test('gives every minute the same room on the clock, and every tenfold of time since a peg move', () => {
    expect(shareAlong(clock, 2800)).toBe(0.5);
    expect(shareAlong(sincePegMove, 200)).toBeCloseTo(0.5, 12);
  });

  test('says where a share lies, back and forth', () => {
    for (const axis of [clock, sincePegMove]) {
      for (const share of [0, 0.1, 0.5, 0.93, 1]) expect(shareAlong(axis, momentAt(axis, share))).toBeCloseTo(share, 10);
    }
  });

  test('puts what came before the peg move off the board, and refuses an axis without length', () => {
    expect(shareAlong(sincePegMove, 0)).toBe(Number.NEGATIVE_INFINITY);
    expect(shareAlong(clock, 640)).toBeCloseTo(-0.1, 12);
    expect(() => shareAlong({ kind: 'linear', from: 5, until: 5 }, 5)).toThrow(RangeError);
    expect(() => shareAlong({ kind: 'log', from: 0, until: 5 }, 5)).toThrow(RangeError);
  });
});
