import type { Move, StringFacts } from './types.ts';
import { youth } from './prior.ts';

// How creep grows with time. Two families hold every law that is argued for:
// - ((1 + t/τ)^b − 1)/b (Box and Cox 1964, applied to time): b = 0 is the logarithm, b > 0 a power law (Findley), b < 0 comes to an end;
// - two relaxations of different speed (Prony; Kelvin–Voigt stages, as fitted by Lynch-Aird and Woodhouse 2025, Materials 18(2):223).
// Every member is scaled to move as far from minute 1 to minute 30 as log10(1 + t/1 min), so one rate is comparable across all.

const minute = 60;
const day = 86_400;
const memorySeconds = 4 * day;
const rememberedMoves = 24;

/** One law of creep: onset τ and bend b, or the two relaxation times and the share of the fast one (0…1). */
export type CreepLaw =
  | { readonly onsetSeconds: number; readonly bend: number }
  | { readonly fastSeconds: number; readonly slowSeconds: number; readonly fastShare: number };

/** A move as creep sees it: when, and semitones raised, counted up for a young string. */
export interface Strain {
  readonly atSeconds: number;
  readonly semitones: number;
}

function unscaled(law: CreepLaw): (seconds: number) => number {
  if ('bend' in law) {
    const { onsetSeconds, bend } = law;
    return (seconds) => (bend === 0 ? Math.log1p(seconds / onsetSeconds) : ((1 + seconds / onsetSeconds) ** bend - 1) / bend);
  }
  const { fastSeconds, slowSeconds, fastShare } = law;
  return (seconds) => -fastShare * Math.expm1(-seconds / fastSeconds) - (1 - fastShare) * Math.expm1(-seconds / slowSeconds);
}

/** A law as a function of seconds since the move, in decades; 0 before it. `growthOf({ onsetSeconds: 60, bend: 0 })(540)` → 1. */
export function growthOf(law: CreepLaw): (seconds: number) => number {
  const growth = unscaled(law);
  const scale = Math.log10(31 / 2) / (growth(30 * minute) - growth(minute));
  return (seconds) => (seconds <= 0 ? 0 : scale * growth(seconds));
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
