import type { Step } from './layout.ts';
import type { Part } from './mixture.ts';
import type { Reading, Slip } from './types.ts';

// Temperature and humidity carry every string about, a few cents within hours. How far is ASSUMED; nobody's room is like another's.

const gapSeconds = 45 * 60;
const mostGaps = 6;
const wanderCentsPerHour = 1.2;
const mostWanderCents = 8;
/** How often, and how fast, something else carries the string off soon after the last reading. */
const turningShare = 0.3;
const turningCentsPerHour = 4.8;
const calmCentsPerHour = 0.3;

/** How far weather may have carried a string in a number of hours: a standard deviation in cents. `wanderCents(3)` → 3.6. */
export const wanderCents = (hours: number): number => Math.min(mostWanderCents, wanderCentsPerHour * Math.max(0, hours));

/** Hours that a steady drift counts for at a moment: the clock's near now, at most one ahead and three back (weather does not go on for ever). */
export const driftHours = (secondsFromNow: number): number =>
  secondsFromNow <= 0 ? 3 * Math.expm1(secondsFromNow / (3 * 3600)) : -Math.expm1(-secondsFromNow / 3600);

/** Readings in sittings: runs with never more than 45 minutes between two readings. */
export function splitAtGaps(readings: readonly Reading[]): readonly (readonly Reading[])[] {
  const starts = readings.flatMap(({ atSeconds }, index) => {
    const before = readings[index - 1];
    return before === undefined || atSeconds - before.atSeconds > gapSeconds ? [index] : [];
  });
  return starts.map((start, index) => readings.slice(start, starts[index + 1]));
}

/**
 * Over the gap between two sittings the string may have gone anywhere weather took it. Kept are the first sitting, which shows the creep,
 * and the latest six; with a step for each gap.
 */
export function sittings(readings: readonly Reading[]): { readonly readings: readonly Reading[]; readonly gaps: readonly Step[] } {
  const all = splitAtGaps(readings);
  const kept = [...all.slice(0, 1), ...all.slice(1).slice(-mostGaps)];
  const gaps = kept.flatMap((sitting, index): readonly Step[] => {
    const [before, after] = [kept[index - 1]?.at(-1), sitting[0]];
    if (before === undefined || after === undefined) return [];
    return [
      { cause: 'weather', atSeconds: after.atSeconds, meanCents: 0, spreadCents: wanderCents((after.atSeconds - before.atSeconds) / 3600) },
    ];
  });
  return { readings: kept.flat(), gaps };
}

/** A later pitch with what weather may add by then: each part once in a calm room, once with a faster drift that nobody could have heard. */
export const withWeather = (parts: readonly Part[], secondsAhead: number): readonly Part[] =>
  parts.flatMap(({ weight, mean, variance }) => {
    const usual = variance + Math.min(mostWanderCents, (calmCentsPerHour * Math.max(0, secondsAhead)) / 3600) ** 2;
    return [
      { weight: weight * (1 - turningShare), mean, variance: usual },
      { weight: weight * turningShare, mean, variance: usual + (turningCentsPerHour * driftHours(secondsAhead)) ** 2 },
    ];
  });

/** Whether a step over a gap is more than weather does: over 6 cents, and two and a half times what is usual for so long a gap. */
export const beyondWeather = ({ cents }: Slip, gap: Step): boolean => Math.abs(cents) > Math.max(6, 2.5 * gap.spreadCents);
