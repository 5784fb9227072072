import type { Move, StringFacts } from './types.ts';
import { youth } from './prior.ts';

// How creep grows with time. Three families hold every law that is argued for:
// - ((1 + t/τ)^b − 1)/b (Box and Cox 1964, applied to time): b = 0 is the logarithm, b > 0 a power law (Findley), b < 0 comes to an end;
// - 1 − exp(−(t/θ)^β), a relaxation stretched over decades of time (Kohlrausch 1854);
// - two relaxations of different speed (Prony; Kelvin–Voigt stages, as fitted by Lynch-Aird and Woodhouse 2025, Materials 18(2):223).
// Every member is scaled to move as far from minute 1 to minute 30 as log10(1 + t/1 min), so one rate is comparable across all.

const minute = 60;
const day = 86_400;
const memorySeconds = 4 * day;
const rememberedMoves = 24;

/** One law of creep: onset τ and bend b; the time θ and exponent β (0…1) of a stretched relaxation; or two relaxation times and the share of the fast one (0…1). */
export type CreepLaw =
  | { readonly onsetSeconds: number; readonly bend: number }
  | { readonly relaxationSeconds: number; readonly exponent: number }
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
  if ('exponent' in law) return (seconds) => -Math.expm1(-((seconds / law.relaxationSeconds) ** law.exponent));
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

/**
 * The moves that still matter for a session that began at `fromSeconds`: of the four days before it, at most the last 24, counted up where the
 * string was young. Moves from before the string was put on were another's, an old one's: they left nothing in this one.
 */
export function strainsOf(moves: readonly Move[], string: StringFacts, nowSeconds: number, fromSeconds: number): readonly Strain[] {
  const putOn = putOnSeconds(string, nowSeconds);
  const ofEarlierString = fromSeconds < putOn;
  const youthAt = (atSeconds: number) => (ofEarlierString ? 1 : youth((atSeconds - putOn) / day));
  return moves
    .filter(({ atSeconds, cents }) => cents !== 0 && atSeconds > fromSeconds - memorySeconds && (ofEarlierString || atSeconds >= putOn))
    .slice(-rememberedMoves)
    .map(({ atSeconds, cents }) => ({ atSeconds, semitones: (cents / 100) * youthAt(atSeconds) }));
}

/** When a string was put on, on the clock of `nowSeconds`; −∞ where nobody noted the day. */
export const putOnSeconds = ({ daysSinceChange }: StringFacts, nowSeconds: number): number =>
  daysSinceChange === null ? Number.NEGATIVE_INFINITY : nowSeconds - daysSinceChange * day;

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
