import { pluckedAtOf } from '#shared/matching/index.ts';
import { centsBetween, hertz } from '#shared/units/index.ts';
import type { CoachState, Sound } from './state.ts';
import { soundOf } from './rings.ts';

/** Nobody hears that a course has landed, moves over and plucks the next one sooner than this, in seconds (own choice: a reaction alone takes about 0.2). */
const hasteSeconds = 0.3;
/** Where the string before stood a moment ago it still stands, in cents. */
const standingCents = 35;

/**
 * The sound of a pluck that comes right after the next course was asked for, where it could be of the course before: the hand was still there. Null
 * where it is no such pluck. Of two courses of one pitch nothing else tells which it is.
 */
export function stillOfBefore(state: CoachState, frame: Parameters<typeof soundOf>[0]): Sound | null {
  const before = state.strings[state.visited.at(-1) ?? -1];
  const pluckedAt = pluckedAtOf(frame);
  if (state.following || pluckedAt === null || before === undefined || before.landedAtSeconds === null) return null;
  const since = pluckedAt - before.landedAtSeconds;
  if (since < 0 || since > hasteSeconds) return null;
  const apart = Math.abs(centsBetween(hertz(frame.hertz), hertz(before.presentHertz)));
  return apart <= standingCents ? soundOf(frame, before) : null;
}
