import { breakShare, confirmShare } from '#shared/tension/index.ts';
import { centsBetween, hertz } from '#shared/units/index.ts';
import { scaleLengthOf } from './pull.ts';
import type { Setup, StringState } from './state.ts';

/** A string further than this above both where the retune found it and where it is wanted is being tightened by mistake, in cents. */
const runawayCents = 300;

/**
 * Why tightening must stop at once, or null: the string carries more than the share of its breaking stress that needs a confirmation and is
 * still above its aim, or it runs away upwards.
 */
export function reasonToStop(setup: Setup, state: StringState, heardHertz: number): string | null {
  const heard = hertz(heardHertz);
  const aboveAim = centsBetween(heard, hertz(state.aimHertz));
  const aboveStart = centsBetween(heard, hertz(setup.present[state.course]?.[state.string] ?? state.aimHertz));
  if (Math.min(aboveAim, aboveStart) > runawayCents) return 'Stop: this string is far above its aim. Is that the right peg?';
  const string = setup.instrument.courses[state.course]?.strings[state.string];
  if (string === undefined || aboveAim <= setup.toleranceCents || aboveStart <= 0) return null;
  const share = breakShare(string, scaleLengthOf(setup, state.course), heard);
  if (share === null || share <= confirmShare) return null;
  return `Stop: this string carries about ${Math.round(share * 100)} % of what breaks it. Keep your face away from it and loosen it.`;
}
