import { describe, expect, test } from 'vitest';
import type { Hand } from '../../../../src-renderer/audio/index.ts';
import { handOn } from '../../../../src-renderer/screens/frame/hand.ts';

/** A clock that is turned by hand. */
const setup = () => {
  const done: Hand[] = [];
  let now = 0;
  let timer: { readonly milliseconds: number; readonly action: () => void } | null = null;
  const every = (milliseconds: number, action: () => void) => {
    timer = { milliseconds, action };
    return () => (timer = null);
  };
  const pass = (milliseconds: number) => {
    for (const until = now + milliseconds; now < until;) {
      now += timer?.milliseconds ?? milliseconds;
      timer?.action();
    }
  };
  return { done, pass, hand: handOn((one) => done.push(one), { now: () => now, every }) };
};
const centsOf = (done: readonly Hand[]) => done.reduce((sum, one) => sum + (one.kind === 'turn' ? one.cents : 0), 0);

describe('a hand on the strings of the screen', () => {
  test('a short press tightens by less than a cent', () => {
    const { done, hand, pass } = setup();
    hand.turn(2, 0, 1);
    pass(100);
    hand.letGo();
    pass(1000);
    expect(centsOf(done)).toBeCloseTo(0.6);
  });

  test('a held peg loosens by about a semitone in a second and a half', () => {
    const { done, hand, pass } = setup();
    hand.turn(2, 0, -1);
    pass(1700);
    hand.letGo();
    expect(centsOf(done)).toBeLessThan(-90);
    expect(centsOf(done)).toBeGreaterThan(-110);
  });

  test('the string of a held peg is plucked again before it has died away, and the others are stopped once', () => {
    const { done, hand, pass } = setup();
    hand.turn(1, 0, 1);
    pass(4000);
    hand.letGo();
    expect(done.filter(({ kind }) => kind === 'pluck')).toHaveLength(3);
    expect(done.filter(({ kind }) => kind === 'damp')).toHaveLength(1);
  });

  test('a string that was just plucked is not plucked again for its peg', () => {
    const { done, hand, pass } = setup();
    hand.pluck(3);
    pass(500);
    hand.turn(3, 0, 1);
    hand.letGo();
    expect(done.map(({ kind }) => kind)).toEqual(['damp', 'pluck', 'turn']);
  });
});
