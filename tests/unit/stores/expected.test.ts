import { describe, expect, test } from 'vitest';
import { expectations } from '../../../src-renderer/stores/expected.ts';
import { sounding, wrenLed } from '../screens/retune/led.ts';

const landed = sounding(sounding(wrenLed(), 1, 195, 1, 0.4), 1, 0.2, 4, 2).coach;

describe('what a string will do by itself', () => {
  test('a string lowered by a tone creeps sharp in the half hour after (common practice)', () => {
    const [third] = expectations(landed, 1800);
    expect(third).toMatchObject({ course: 1, untilSeconds: 1800 });
    expect(third?.endCents ?? 0).toBeGreaterThan(1);
    expect(third?.endCents ?? 0).toBeLessThan(15);
  });

  test('nothing is expected of strings that have not landed, nor of one that was drawn off and comes again', () => {
    expect(expectations(wrenLed().coach, 1800)).toEqual([]);
    const drawnOff = landed.strings.map((one) => (one.course === 1 ? { ...one, presentHertz: one.aimHertz * 2 ** (9 / 1200) } : one));
    expect(expectations({ ...landed, strings: drawnOff }, 1800)).toEqual([]);
  });

  test('a string left below its pitch reaches it within the time, and no later than it passes it', () => {
    const below = landed.strings.map((one) =>
      one.course === 1
        ? { ...one, pulls: [], aimHertz: one.wantedHertz * 2 ** (-1.5 / 1200), presentHertz: one.wantedHertz * 2 ** (-1.5 / 1200) }
        : one,
    );
    const [third] = expectations({ ...landed, strings: below }, 1800);
    expect(third?.reachesAtSeconds ?? 0).toBeGreaterThan(landed.nowSeconds);
    expect(third?.reachesAtSeconds ?? 0).toBeLessThanOrEqual(1800);
  });

  test('what the turns of other courses still to come will do is part of it', () => {
    const third = landed.strings[1];
    const pulled = landed.strings.map((one) =>
      one === third
        ? {
            ...one,
            moves: [],
            pulls: [{ course: 2, string: 0, cents: 4 }],
            aimHertz: one.wantedHertz * 2 ** (-4 / 1200),
            presentHertz: one.wantedHertz * 2 ** (-4 / 1200),
          }
        : one,
    );
    expect(expectations({ ...landed, strings: pulled }, 60)).toMatchObject([{ course: 1, by: [2] }]);
  });
});
