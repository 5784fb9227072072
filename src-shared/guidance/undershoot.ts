import { atCents, cents, centsBetween, hertz } from '#shared/units/index.ts';
import type { Setup } from './setup.ts';
import type { StringState } from './state.ts';

// Common practice for pegs with play: a lowered string is taken a little below and brought up, so that the peg ends up pulling.

/** Whether a lowered string still has to go below its aim before it is brought up. */
export const isToGoBelow = ({ undershootCents = 0, toleranceCents }: Setup, { visit, aimHertz }: StringState): boolean =>
  undershootCents > 0 &&
  visit !== null &&
  !visit.undershot &&
  centsBetween(hertz(visit.before.hertz), hertz(aimHertz)) > toleranceCents + undershootCents;

/** The pitch that the coach wants of a string now, in hertz. */
export const aimNow = (setup: Setup, one: StringState): number =>
  isToGoBelow(setup, one) ? atCents(hertz(one.aimHertz), cents(-(setup.undershootCents ?? 0))) : one.aimHertz;

/** The string after a frame: it has been below once it was heard as far below its aim as was asked, give or take the tolerance. */
export function withUndershoot(setup: Setup, one: StringState): StringState {
  if (one.visit === null || !isToGoBelow(setup, one)) return one;
  const above = centsBetween(hertz(one.presentHertz), hertz(aimNow(setup, one)));
  return above <= setup.toleranceCents ? { ...one, visit: { ...one.visit, undershot: true } } : one;
}
