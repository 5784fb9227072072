import { expect, test } from 'vitest';
import { learnString } from '#shared/settling/index.ts';
import { settleTimes } from '../../../../../src-renderer/screens/settling/year/settle-times.ts';
import { instrumentOf } from '../../wren.ts';

const day = 86_400;
const nowSeconds = 1_000 * day;
const wren = instrumentOf('ukulele-tenor-high-g', 'Wren');
const string = { material: 'fluorocarbon', wound: false, daysSinceChange: 200 } as const;

/** What eight evenings teach of a string that creeps by so many cents a decade of time for each semitone. */
const lessonOf = (rate: number) => ({
  course: 3,
  string: 0,
  turns: [],
  nowSeconds,
  lesson: learnString({
    string,
    nowSeconds,
    past: Array.from({ length: 8 }, (_, evening) => {
      const atSeconds = nowSeconds - (80 - evening * 9) * day;
      return {
        moves: [{ atSeconds, cents: -200 }],
        readings: [0.5, 1, 3, 8, 20, 60].map((minutes) => ({
          atSeconds: atSeconds + minutes * 60,
          cents: 2 * rate * Math.log10(1 + minutes),
          sigmaCents: 0.3,
        })),
      };
    }),
  }),
});

test('a string that taught that it creeps more takes longer to settle than its kind, one that creeps less is sooner there', () => {
  const [slow] = settleTimes(wren, [lessonOf(4)], 3);
  const [quick] = settleTimes(wren, [lessonOf(0.7)], 3);
  expect(slow?.assumed).toBe(quick?.assumed);
  expect(slow?.learned ?? 0).toBeGreaterThan(1.5 * (slow?.assumed ?? Infinity));
  expect(quick?.learned ?? Infinity).toBeLessThan(0.5 * (quick?.assumed ?? 0));
});
