import type { Outlook } from './outlook.ts';
import type { Policy } from './types.ts';

const farthestSeconds = 30 * 86_400;
/** How sure the movement must be to stay within the tolerance (the one knob between "too soon" and "too late"; set on the bench). */
export const confidence = 2 / 3;

/**
 * The moment from which the string moves no more than the tolerance within one horizon, by bisection between `fromSeconds` and 30 days on;
 * null when that is farther away.
 */
export function holdsFrom(outlook: Outlook, { toleranceCents, horizonSeconds }: Policy, fromSeconds: number): number | null {
  const holdsAt = (seconds: number) => outlook.staysWithin(toleranceCents, seconds, seconds + horizonSeconds) >= confidence;
  if (holdsAt(fromSeconds)) return fromSeconds;
  let early = 30;
  let late = early;
  while (!holdsAt(fromSeconds + late)) {
    if (late > farthestSeconds) return null;
    early = late;
    late *= 2;
  }
  while (late - early > Math.max(5, late / 200)) {
    const middle = (early + late) / 2;
    if (holdsAt(fromSeconds + middle)) late = middle;
    else early = middle;
  }
  return fromSeconds + late;
}
