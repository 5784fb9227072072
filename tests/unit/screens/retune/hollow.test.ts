import { describe, expect, test } from 'vitest';
import { hollowOf } from '../../../../src-renderer/screens/retune/hollow-words.ts';
import type { Expected } from '../../../../src-renderer/stores/expected.ts';
import { clockTime } from '../../../../src-renderer/ui/time.ts';
import { wrenLed } from './led.ts';

const [, one] = wrenLed().coach.strings;
if (one === undefined) throw new RangeError('no string');
const wanted = ['Bb3'] as never;
const expected: Expected = { course: 1, string: 0, reachesAtSeconds: null, by: [], untilSeconds: 1800, endCents: 6 };
/** A string that stands on its aim, `beside` cents from wanted. */
const onAim = (beside: number) => ({
  ...one,
  aimHertz: one.wantedHertz * 2 ** (beside / 1200),
  presentHertz: one.wantedHertz * 2 ** (beside / 1200),
});

describe('the hollow bead', () => {
  test('stands at the wanted pitch where a led string reaches it, and says when and what then', () => {
    const hollow = hollowOf({ ...expected, reachesAtSeconds: 960, endCents: 1.5 }, onAim(-5.5), wanted);
    expect(hollow.ringCents).toBeCloseTo(5.5, 6);
    expect(hollow.what).toBe(`reaches B♭3 at ${clockTime(960_000)}`);
    expect(hollow.after).toBe(`1½ c above it by ${clockTime(1_800_000)}`);
  });

  test('stands where the string ends up where it drifts off its pitch', () => {
    const hollow = hollowOf(expected, onAim(0), wanted);
    expect(hollow.ringCents).toBeCloseTo(6, 6);
    expect(hollow.what).toBe(`6 c above B♭3 by ${clockTime(1_800_000)}`);
  });

  test('names the courses that take it there where it is not time that does', () => {
    expect(hollowOf({ ...expected, by: [2, 3], endCents: 0.1 }, onAim(4), wanted, 4).what).toBe('reaches B♭3 when 2 and 1 are turned');
  });

  test('is only words where it would touch the bead, and beyond 15 cents', () => {
    expect(hollowOf({ ...expected, endCents: 1 }, onAim(0), wanted).ringCents).toBeNull();
    expect(hollowOf({ ...expected, endCents: 18 }, onAim(0), wanted)).toMatchObject({
      ringCents: null,
      what: `18 c above B♭3 by ${clockTime(1_800_000)}`,
    });
  });
});
