import { expect, test } from 'vitest';
import { slippingOf } from '../../../src-renderer/screens/slipping.ts';
import type { StringVerdict } from '../../../src-renderer/stores/settling.ts';

const string = (course: number, isSeen: boolean | null): StringVerdict => ({
  course,
  string: 0,
  assessment: { verdict: 'settling', holdsFromSeconds: null, nextCheckSeconds: null, driftCents: 0, insideTolerance: null, why: '' },
  warning: isSeen === null ? null : { kind: 'slips', since: 0, isSeen },
});

test('a list marks the instrument with a slipping string by its player’s course numbers, more faintly once it was seen', () => {
  expect(slippingOf([string(0, null), string(1, null)], 4)).toBeNull();
  expect(slippingOf([string(0, null), string(2, false)], 4)).toEqual({ words: 'course 2 slipping', isSeen: false });
  expect(slippingOf([string(1, true), string(2, false)], 4)).toEqual({ words: 'courses 3 and 2 slipping', isSeen: false });
  expect(slippingOf([string(2, true)], 4)).toEqual({ words: 'course 2 slipping, seen', isSeen: true });
});
