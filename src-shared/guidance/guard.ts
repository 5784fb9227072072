import { breakShare, confirmShare } from '#shared/tension/index.ts';
import { centsBetween, hertz } from '#shared/units/index.ts';
import { scaleLengthOf } from './pull.ts';
import type { Setup } from './setup.ts';
import type { StringState } from './state.ts';

/** A string further than this above both where the retune found it and where it is wanted is being tightened by mistake, in cents. */
const runawayCents = 300;

/**
 * Why tightening must stop at once, or null: the string carries more than the share of its breaking stress that needs a confirmation and is
 * still above its aim, or it runs away upwards.
 */
export const reasonToStop = (setup: Setup, state: StringState, heardHertz: number): string | null =>
  isRunaway(setup, state, heardHertz)
    ? 'Stop: this string is far above its aim. Is that the right peg?'
    : overloadOf(setup, state, heardHertz);

/** What is said of a string that carries more than the share that needs a confirmation, was taken there, and is above its aim; else null. */
export function overloadOf(setup: Setup, state: StringState, heardHertz: number): string | null {
  const string = setup.instrument.courses[state.course]?.strings[state.string];
  const above = heightOf(setup, state, heardHertz);
  if (string === undefined || above.aim <= setup.toleranceCents || above.start <= 0) return null;
  const share = breakShare(string, scaleLengthOf(setup, state.course), hertz(heardHertz));
  if (share === null || share <= confirmShare) return null;
  return `Stop: this string carries about ${Math.round(share * 100)} % of what breaks it. Keep your face away from it and loosen it.`;
}

function isRunaway(setup: Setup, state: StringState, heardHertz: number): boolean {
  const { aim, start } = heightOf(setup, state, heardHertz);
  return Math.min(aim, start) > runawayCents;
}

/** How far above its aim, and above where the retune found it, a string was heard, in cents. */
const heightOf = (setup: Setup, { course, string, aimHertz }: StringState, heardHertz: number) => ({
  aim: centsBetween(hertz(heardHertz), hertz(aimHertz)),
  start: centsBetween(hertz(heardHertz), hertz(setup.present[course]?.[string] ?? aimHertz)),
});
