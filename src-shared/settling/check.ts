import type { Outlook } from './outlook.ts';
import type { Policy } from './types.ts';

const soonestSeconds = 30;
const ratios = [1.25, 1.5, 2, 2.5, 3];
const goodShare = 0.6;
const usefulShare = 0.1;

/**
 * When to read next: of moments spaced evenly in log time since the last turn, the first that takes away three fifths of what the best of
 * them takes away from the uncertainty one horizon ahead. Null when no moment within the horizon takes away a tenth.
 */
export function nextCheck(
  outlook: Outlook,
  { horizonSeconds }: Policy,
  movedAtSeconds: number,
  nowSeconds: number,
  sigmaCents: number,
): number | null {
  const elapsed = Math.max(60, nowSeconds - movedAtSeconds);
  const target = nowSeconds + horizonSeconds;
  const moments = ratios
    .map((ratio) => nowSeconds + Math.max(soonestSeconds, elapsed * (ratio - 1)))
    .filter((moment) => moment < nowSeconds + horizonSeconds / 2);
  const offers = moments.map((moment) => ({ moment, narrowing: outlook.narrowing(moment, target, sigmaCents) }));
  const best = Math.max(0, ...offers.map(({ narrowing }) => narrowing));
  if (best < usefulShare) return null;
  return offers.find(({ narrowing }) => narrowing >= goodShare * best)?.moment ?? null;
}
