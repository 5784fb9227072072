import { describe, expect, test } from 'vitest';
import { drawInstrument, drawPlayer, type Guide, play, turned } from '#shared/simulation/player/index.ts';
import { seededRandom } from '#shared/simulation/strings/index.ts';

const facts = { material: 'nylon', wound: false, daysSinceChange: 90 } as const;
const open = [392, 261.6, 329.6, 440];
const strings = open.map((hertz) => ({ facts, hertz, newtons: 45, stiffness: 1 }));
const instrument = (averageShare: number, seed = 3) => drawInstrument(seededRandom(seed), { strings, averageShare, slipChance: 0 }, 0);
const cents = (a: number, b: number) => 1200 * Math.log2(a / b);

describe('the body', () => {
  test('tightening one string makes the others flat, loosening sharp, by about the share of the pull', () => {
    for (const turn of [200, -200]) {
      const uke = instrument(0.01);
      const before = open.map((_, place) => uke.hertzAt(place, 0));
      uke.move(3, turn, 0);
      expect(cents(uke.hertzAt(3, 0), before[3] ?? 0)).toBeCloseTo(turn, 3);
      // 200 cents more are 26 % more pull: 1 % of that is 2.2 cents off a string of the same pull; pairs differ.
      for (const other of [0, 1, 2]) {
        const shift = cents(uke.hertzAt(other, 0), before[other] ?? 0);
        expect(Math.sign(shift)).toBe(-Math.sign(turn));
        expect(Math.abs(shift)).toBeGreaterThan(0.8);
        expect(Math.abs(shift)).toBeLessThan(5);
      }
    }
  });

  test('a raised string goes flat afterwards, a lowered one sharp', () => {
    const uke = instrument(0.001, 8);
    uke.move(0, 200, 0);
    uke.move(1, -200, 0);
    expect(cents(uke.hertzAt(0, 1800), uke.hertzAt(0, 1))).toBeLessThan(-1);
    expect(cents(uke.hertzAt(1, 1800), uke.hertzAt(1, 1))).toBeGreaterThan(1);
  });
});

describe('pegs', () => {
  test('go in steps, and lose their play when they are turned back', () => {
    const random = seededRandom(4);
    for (const asked of [-7.3, 2.2, 40]) expect((turned(random, { stepCents: 0.5, backlashCents: 0 }, asked, 0) * 2) % 1).toBeCloseTo(0, 9);
    expect(turned(random, { stepCents: 0.01, backlashCents: 5 }, -12, 1)).toBeCloseTo(-7, 1);
    expect(turned(random, { stepCents: 0.01, backlashCents: 5 }, 12, 1)).toBeCloseTo(12, 1);
  });
});

describe('the player', () => {
  test('turns as told until the guide is content, and the same seed plays the same', () => {
    const run = () => {
      const random = seededRandom(12);
      const uke = instrument(0.005);
      const aim = (open[2] ?? 0) * 2 ** (-150 / 1200);
      let heard = uke.hertzAt(2, 0);
      const guide: Guide = {
        hear: (frame) => (heard = frame.hertz),
        ask: () => (Math.abs(cents(heard, aim)) < 4 ? null : { place: 2, turnCents: cents(aim, heard) }),
      };
      const outcome = play(random, uke, drawPlayer(random), guide, 0);
      return { ...outcome, off: cents(uke.hertzAt(2, outcome.untilSeconds), aim) };
    };
    const played = run();
    expect(played).toMatchObject({ isDone: true, passes: 1 });
    expect(played.turns).toBeGreaterThan(0);
    expect(Math.abs(played.off)).toBeLessThan(12);
    expect(run()).toEqual(played);
  });
});
