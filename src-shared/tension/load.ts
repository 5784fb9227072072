import type { Newtons } from '#shared/units/index.ts';

/** How much more than at home a whole set may pull before a caution, and before a worded confirmation (proposed; no rating is published). */
export const cautionLoadRise = 0.15;
export const confirmLoadRise = 0.3;

/** What a whole set pulls against what the instrument is used to. */
export type Load = {
  /** Planned over home, less 1: 0.2 = a fifth more. */
  readonly rise: number;
  /** Where the plan lies in the totals published for the size; null where none are. */
  readonly usual: 'below' | 'within' | 'above' | null;
  readonly verdict: 'within' | 'caution' | 'confirm';
};

/**
 * Judges the load of all strings together, by its rise over the home tuning and over the greatest total published for the size.
 * It covers no instrument's own strength: that is its maker's to say. `judgeLoad(newtons(180), newtons(150), null)` → a caution, 20 % more.
 */
export function judgeLoad(planned: Newtons, home: Newtons, usualTotal: readonly [number, number] | null): Load {
  const over = Math.max(planned / home, usualTotal === null ? 0 : planned / usualTotal[1]);
  const usual = usualTotal === null ? null : planned < usualTotal[0] ? 'below' : planned > usualTotal[1] ? 'above' : 'within';
  const isMuch = over >= 1 + cautionLoadRise || usual === 'above';
  return { rise: planned / home - 1, usual, verdict: over >= 1 + confirmLoadRise ? 'confirm' : isMuch ? 'caution' : 'within' };
}
