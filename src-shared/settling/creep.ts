import type { Move, StringFacts } from './types.ts';
import { youth } from './prior.ts';

// How creep grows with time. One family holds every law that is argued for: ((1 + t/τ)^b − 1)/b (Box and Cox 1964, applied to time).
// b = 0 is the logarithm, b > 0 a power law (Findley), b < 0 a law that comes to an end (stretched exponential, Prony sum).
// Every member is scaled to move as far from minute 1 to minute 30 as log10(1 + t/1 min), so one rate is comparable across all.

const minute = 60;
const day = 86_400;
const memorySeconds = 4 * day;
const rememberedMoves = 24;

/** One law of creep: its onset τ in seconds, and its bend b. */
export interface CreepLaw {
  readonly onsetSeconds: number;
  readonly bend: number;
}

/** A move as creep sees it: when, and semitones raised, counted up for a young string. */
export interface Strain {
  readonly atSeconds: number;
  readonly semitones: number;
}

const boxCox = (time: number, bend: number): number => (bend === 0 ? Math.log1p(time) : ((1 + time) ** bend - 1) / bend);

/** A law as a function of seconds since the move, in decades; 0 before it. `growthOf({ onsetSeconds: 60, bend: 0 })(540)` → 1. */
export function growthOf({ onsetSeconds, bend }: CreepLaw): (seconds: number) => number {
  const span = boxCox((30 * minute) / onsetSeconds, bend) - boxCox(minute / onsetSeconds, bend);
  const scale = Math.log10(31 / 2) / span;
  return (seconds) => (seconds <= 0 ? 0 : scale * boxCox(seconds / onsetSeconds, bend));
}

/**
 * Superposition (Boltzmann): every move adds a creep of its own sign and age. In decades × semitones; times the rate it is cents.
 */
export const superposed = (growth: (seconds: number) => number, strains: readonly Strain[], atSeconds: number): number =>
  strains.reduce((sum, { atSeconds: movedAt, semitones }) => sum + semitones * growth(atSeconds - movedAt), 0);

/** The moves that still matter around a moment: of the last four days, at most the last 24, counted up where the string was young. */
export function strainsOf(moves: readonly Move[], string: StringFacts, nowSeconds: number, fromSeconds: number): readonly Strain[] {
  const ageAt = (seconds: number) => (string.daysSinceChange === null ? null : string.daysSinceChange - (nowSeconds - seconds) / day);
  return moves
    .filter(({ atSeconds, cents }) => cents !== 0 && atSeconds > fromSeconds - memorySeconds)
    .slice(-rememberedMoves)
    .map(({ atSeconds, cents }) => ({ atSeconds, semitones: (cents / 100) * youth(ageAt(atSeconds)) }));
}

/**
 * Seconds after one move until the next horizon moves the string by no more than the tolerance, for logarithmic creep of
 * `rateCents` per decade: `t = H/(10^(N/|D|) − 1) − τ`, never below 0. Throws RangeError unless every length is above 0.
 * `settleSeconds({ rateCents: 10, toleranceCents: 3, horizonSeconds: 1800, onsetSeconds: 60 })` → 1748.6 (29.1 minutes).
 */
export function settleSeconds(asked: {
  readonly rateCents: number;
  readonly toleranceCents: number;
  readonly horizonSeconds: number;
  readonly onsetSeconds: number;
}): number {
  const { rateCents, toleranceCents, horizonSeconds, onsetSeconds } = asked;
  for (const length of [toleranceCents, horizonSeconds, onsetSeconds])
    if (!(length > 0)) throw new RangeError(`tolerance, horizon and onset must be above 0; got ${length}`);
  if (rateCents === 0) return 0;
  return Math.max(0, horizonSeconds / (10 ** (toleranceCents / Math.abs(rateCents)) - 1) - onsetSeconds);
}
