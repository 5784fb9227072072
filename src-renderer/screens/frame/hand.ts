import type { VirtualInstrument } from '../../stores/virtual-strings.ts';

/** A hand on the strings of the screen. A peg turns for as long as it is held; its string is plucked whenever it would have died away. */
export type HandOn = {
  readonly pluck: (course: number) => void;
  readonly strum: () => void;
  readonly turn: (course: number, string: number, direction: 1 | -1) => void;
  readonly letGo: () => void;
};

/** A short press turns this far, in cents; a held one so far at a time. */
const touchCents = 0.6;
const heldCents = 3.5;
const heldAfterMilliseconds = 250;
const stepMilliseconds = 50;
const ringsMilliseconds = 1800;

/** `clock` is for tests. */
export function handOn(
  hand: VirtualInstrument['hand'],
  clock: { readonly now: () => number; readonly every: (milliseconds: number, action: () => void) => () => void } = pageClock,
): HandOn {
  let plucked = { course: -1, at: Number.NEGATIVE_INFINITY };
  let stop: (() => void) | null = null;

  const pluck = (course: number) => {
    if (plucked.course !== course) hand({ kind: 'damp' });
    plucked = { course, at: clock.now() };
    hand({ kind: 'pluck', course });
  };
  const keepRinging = (course: number) => {
    if (plucked.course !== course || clock.now() - plucked.at > ringsMilliseconds) pluck(course);
  };
  const letGo = () => {
    stop?.();
    stop = null;
  };
  return {
    pluck,
    strum: () => {
      plucked = { course: -1, at: clock.now() };
      hand({ kind: 'strum' });
    },
    turn: (course, string, direction) => {
      letGo();
      const from = clock.now();
      keepRinging(course);
      hand({ kind: 'turn', course, string, cents: direction * touchCents });
      stop = clock.every(stepMilliseconds, () => {
        if (clock.now() - from < heldAfterMilliseconds) return;
        keepRinging(course);
        hand({ kind: 'turn', course, string, cents: direction * heldCents });
      });
    },
    letGo,
  };
}

const pageClock = {
  now: () => performance.now(),
  every: (milliseconds: number, action: () => void) => {
    const timer = setInterval(action, milliseconds);
    return () => clearInterval(timer);
  },
};
