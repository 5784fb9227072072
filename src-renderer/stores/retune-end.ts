import { listenForStrum } from '#shared/guidance/index.ts';
import { nameBut, coursesApart } from './strings.ts';
import type { Retuning } from './retuning.ts';

/** How a retune ended: in which tuning the instrument is, and which of its courses stand apart from it, from the player's eye. */
export type RetuneEnd = { readonly isRetuned: boolean; readonly tuning: string; readonly left: readonly number[] };

/**
 * The instrument is in the tuning it was taken to, unless more of its courses stand apart from that than from the one it was in: whoever skips every
 * course has not retuned it.
 */
export function retuneEnd({ from, whole, coach }: Pick<Retuning, 'from' | 'whole' | 'coach'>): RetuneEnd {
  const present = listenForStrum(coach);
  const [apart, before] = [coursesApart(present, whole.hertz), coursesApart(present, from.hertz)];
  const isRetuned = apart.length <= before.length;
  const tuning = nameBut(isRetuned ? whole.name : from.name, isRetuned ? apart : before, present.length);
  return { isRetuned, tuning, left: apart };
}
