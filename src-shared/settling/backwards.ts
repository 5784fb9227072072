import { confidence } from './holds.ts';
import type { Lesson } from './learning.ts';
import { outlookOf } from './plan.ts';
import type { Move, Policy } from './types.ts';

// The forecast run backwards: by when to retune, so that every string holds by a given time.

const resolutionSeconds = 60;

/** A string that is to be retuned: what was learned of it, the moves it has had, oldest first, and the turn to come in cents. */
export interface Retuned {
  readonly lesson: Lesson;
  readonly moves: readonly Move[];
  readonly cents: number;
}

/**
 * "To hold at 20:00, retune by 18:40": the latest moment, to the minute, at which all the strings can be turned so that from `holdAtSeconds`
 * on each moves no more than the tolerance within one horizon (brought onto pitch again just before, if it has to be). Null where even a
 * retune at `nowSeconds` is too late. Without strings, or with turns of nothing, it is `holdAtSeconds` itself.
 * Throws RangeError where `holdAtSeconds` lies before `nowSeconds`.
 * `latestRetune([{ lesson, moves: [], cents: 200 }], { nowSeconds: 0, holdAtSeconds: 7200, policy })` → about 5400, half an hour before.
 */
export function latestRetune(
  strings: readonly Retuned[],
  { nowSeconds, holdAtSeconds, policy }: { readonly nowSeconds: number; readonly holdAtSeconds: number; readonly policy: Policy },
): number | null {
  if (!(holdAtSeconds >= nowSeconds)) throw new RangeError(`holdAtSeconds must not lie before now; got ${holdAtSeconds} at ${nowSeconds}`);
  const turned = strings.filter(({ cents }) => cents !== 0);
  const holds = (atSeconds: number): boolean =>
    turned.every(({ lesson, moves, cents }) => {
      const outlook = outlookOf({ lesson, moves: [...moves, { atSeconds, cents }], nowSeconds });
      return outlook.staysWithin(policy.toleranceCents, holdAtSeconds, holdAtSeconds + policy.horizonSeconds) >= confidence;
    });
  if (holds(holdAtSeconds)) return holdAtSeconds;
  if (!holds(nowSeconds)) return null;
  let [early, late] = [nowSeconds, holdAtSeconds];
  while (late - early > resolutionSeconds) {
    const middle = (early + late) / 2;
    if (holds(middle)) early = middle;
    else late = middle;
  }
  return early;
}
