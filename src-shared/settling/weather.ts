import type { Step } from './layout.ts';
import type { Part } from './mixture.ts';
import type { Reading, Slip } from './types.ts';

// Temperature and humidity carry every string about, a few cents within hours. How far is ASSUMED; nobody's room is like another's.

const gapSeconds = 45 * 60;
const mostGaps = 6;
const wanderCentsPerHour = 1.2;
const mostWanderCents = 8;
/** How often, and how fast, something else carries the string off soon after the last reading. */
const turningShare = 0.2;
const turningCentsPerHour = 4;
const fadeSeconds = 3600;

/** How far weather may have carried a string in a number of hours: a standard deviation in cents. `wanderCents(3)` → 3.6. */
export const wanderCents = (hours: number): number => Math.min(mostWanderCents, wanderCentsPerHour * Math.max(0, hours));

/** Hours that a steady drift counts for: the clock's up to now, fading out after it (weather does not go on for ever). */
export const driftHours = (secondsFromNow: number): number =>
  (secondsFromNow <= 0 ? secondsFromNow : fadeSeconds * (1 - Math.exp(-secondsFromNow / fadeSeconds))) / 3600;

/**
 * Readings fall into sittings, with more than 45 minutes between them; over such a gap the string may stand anywhere weather took it.
 * Kept are the first sitting, which shows the creep, and the latest six; with a step for each gap.
 */
export function sittings(readings: readonly Reading[]): { readonly readings: readonly Reading[]; readonly gaps: readonly Step[] } {
  const starts = readings.flatMap(({ atSeconds }, index) => {
    const before = readings[index - 1];
    return before !== undefined && atSeconds - before.atSeconds > gapSeconds ? [index] : [];
  });
  const [firstGap] = starts;
  const keptFrom = starts.at(-mostGaps);
  const kept =
    firstGap === undefined || keptFrom === undefined
      ? readings
      : [...readings.slice(0, firstGap), ...readings.slice(Math.max(firstGap, keptFrom))];
  const gaps = kept.flatMap(({ atSeconds }, index) => {
    const hours = (atSeconds - (kept[index - 1]?.atSeconds ?? atSeconds)) / 3600;
    return hours * 3600 > gapSeconds ? [{ cause: 'weather' as const, atSeconds, meanCents: 0, spreadCents: wanderCents(hours) }] : [];
  });
  return { readings: kept, gaps };
}

/** A later pitch with what weather may add by then: each part once with the usual wander, once with a faster drift that nobody could have heard. */
export const withWeather = (parts: readonly Part[], secondsAhead: number): readonly Part[] =>
  parts.flatMap(({ weight, mean, variance }) => {
    const usual = variance + wanderCents(secondsAhead / 3600) ** 2;
    return [
      { weight: weight * (1 - turningShare), mean, variance: usual },
      { weight: weight * turningShare, mean, variance: usual + (turningCentsPerHour * driftHours(secondsAhead)) ** 2 },
    ];
  });

/** Whether a step over a gap is more than weather does: over 6 cents, and three times what is usual for so long a gap. */
export const beyondWeather = ({ cents }: Slip, gap: Step): boolean => Math.abs(cents) > Math.max(6, 3 * gap.spreadCents);
