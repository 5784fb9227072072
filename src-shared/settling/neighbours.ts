import { median } from 'simple-statistics';
import type { Step } from './layout.ts';
import { theilSen } from './theil-sen.ts';
import type { Reading, StringLog } from './types.ts';

// What the other strings of the instrument explain: jumps when their pegs are turned, and a drift that unmoved ones show.

const unmovedSeconds = 3 * 3600;
const watchedSeconds = 2 * 3600;
/** Share of a neighbour's turn that comes off this string, and its spread (assumed: bodies differ that much). */
const couplingShare = 0.02;
const couplingSpread = 0.06;
const smallestCouplingCents = 1.5;
const mostSteps = 8;

/** A step before the first reading after each turn of another peg: turning one up lets the others down. */
export function couplingSteps(readings: readonly Reading[], others: readonly StringLog[]): readonly Step[] {
  const first = readings[0];
  const turns = others.flatMap(({ moves }) => moves).filter(({ atSeconds }) => first !== undefined && atSeconds > first.atSeconds);
  const gaps = new Map<number, { readonly turned: number; readonly size: number }>();
  for (const { atSeconds, cents } of turns) {
    const next = readings.find((reading) => reading.atSeconds >= atSeconds);
    if (next === undefined) continue;
    const gap = gaps.get(next.atSeconds) ?? { turned: 0, size: 0 };
    gaps.set(next.atSeconds, { turned: gap.turned + cents, size: gap.size + Math.abs(cents) });
  }
  return [...gaps]
    .sort(([a], [b]) => a - b)
    .slice(-mostSteps)
    .map(([atSeconds, { turned, size }]) => ({
      cause: 'coupling',
      atSeconds,
      meanCents: -couplingShare * turned,
      spreadCents: Math.max(smallestCouplingCents, couplingSpread * size),
    }));
}

/**
 * The drift that other strings show that nobody has turned for three hours, in cents per hour with its variance.
 * Where there are none, or none was read twice lately, zero with no variance: nothing is subtracted.
 */
export function commonDrift(
  others: readonly StringLog[],
  nowSeconds: number,
): { readonly centsPerHour: number; readonly variance: number } {
  const slopes = others.flatMap((other) => {
    const lastMove = other.moves.at(-1)?.atSeconds ?? other.past.at(-1)?.moves.at(-1)?.atSeconds ?? Number.NEGATIVE_INFINITY;
    const since = Math.max(lastMove + unmovedSeconds, nowSeconds - watchedSeconds);
    const readings = other.readings.filter(({ atSeconds }) => atSeconds >= since && atSeconds <= nowSeconds).slice(-30);
    const span = ((readings.at(-1)?.atSeconds ?? 0) - (readings[0]?.atSeconds ?? 0)) / 3600;
    const line = theilSen(readings.map(({ atSeconds, cents }) => ({ x: (atSeconds - nowSeconds) / 3600, y: cents })));
    if (line === null || span <= 0) return [];
    const sigma = Math.max(median(readings.map(({ sigmaCents }) => sigmaCents)), line.spread);
    return [{ slope: line.slope, variance: ((sigma / span) ** 2 * 12) / readings.length }];
  });
  if (slopes.length === 0) return { centsPerHour: 0, variance: 0 };
  const informative = slopes.filter(({ variance }) => variance < 100);
  if (informative.length === 0) return { centsPerHour: 0, variance: 0 };
  const precision = informative.reduce((sum, { variance }) => sum + 1 / variance, 0);
  const mean = informative.reduce((sum, { slope, variance }) => sum + slope / variance, 0) / precision;
  const shrunk = mean / (1 + 1 / precision / 4 ** 2);
  return { centsPerHour: shrunk, variance: 1 / precision + (shrunk / 2) ** 2 };
}
