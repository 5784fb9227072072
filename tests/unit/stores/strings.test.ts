import { expect, test } from 'vitest';
import { stateOf } from '../../../src-renderer/stores/strings.ts';
import { instrumentOf, readingOf, settings } from '../screens/wren.ts';

const wren = instrumentOf('ukulele-tenor-high-g', 'Wren');
const cents = (from: number | undefined, to: number | undefined): number => 1200 * Math.log2((to ?? 0) / (from ?? 0));

test('a string whose peg was turned since it was heard is not where it was before: the plan starts from where the turn took it', () => {
  const [wanted] = stateOf(wren, [], settings).tuning.hertz[2] ?? [];
  const heard = { ...wren, lastReadings: [readingOf(2, wanted ?? 0, wanted ?? 0, 1)] };
  const turned = { ...heard, turnedSinceHeard: [{ course: 2, string: 0, cents: -90, at: 2 }] };
  const present = (overview: typeof wren, course: number) => stateOf(overview, [], settings).present[course]?.[0];
  expect(cents(wanted, present(heard, 2))).toBeCloseTo(0, 9);
  expect(cents(wanted, present(turned, 2))).toBeCloseTo(-90, 9);
  expect(present(turned, 1)).toBe(present(heard, 1));
});
