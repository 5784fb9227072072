import { median } from 'simple-statistics';
import type { Move, Reading } from './types.ts';

// Which unknown numbers a session has: the creep rate, a steady drift, a level after every turn of the string's own peg, and steps.

/** A step that may lie between two readings: what may make it, the first reading after it, the expected size and its spread in cents. */
export interface Step {
  readonly cause: 'coupling' | 'weather' | 'slip';
  readonly atSeconds: number;
  readonly meanCents: number;
  readonly spreadCents: number;
}

/** A stretch of readings between two turns of the string's own peg. */
export interface Stretch {
  readonly fromSeconds: number;
  readonly readings: readonly Reading[];
  readonly levelCents: number;
  readonly levelSpreadCents: number;
  /** Where the creep and drift columns are zero, so that the level is the pitch at that moment. */
  readonly anchorSeconds: number;
}

/** No reading is believed to be better than this. */
export const smallestSigmaCents = 0.15;
const levelSpreadCents = 20;
/**
 * A retune ends near the wanted pitch: within about a lead of it (assumed), and by its last reading a string is as far from there as it was heard
 * to move. Of two readings that disagree, that backs the nearer one.
 */
const tunedSpreadCents = 10;
const unheardSpreadCents = 6;
const rememberedStretches = 4;

/**
 * The stretches of a session, oldest first; the last one is the present one, and may have no reading yet. `beganAtSeconds`: since when a
 * string that was neither turned nor heard is taken to be where it was left.
 */
export function stretchesOf(moves: readonly Move[], readings: readonly Reading[], beganAtSeconds: number): readonly Stretch[] {
  const turns = moves.map(({ atSeconds }) => atSeconds);
  const starts = [Number.NEGATIVE_INFINITY, ...turns];
  const stretches = starts.map((from, index) => {
    const until = starts[index + 1] ?? Number.POSITIVE_INFINITY;
    const within = readings.filter(({ atSeconds }) => atSeconds >= from && atSeconds < until);
    const anchorSeconds = within.at(-1)?.atSeconds ?? from;
    const tuned = index > 0 && index === starts.length - 1;
    const levelCents = tuned || within.length === 0 ? 0 : median(within.map(({ cents }) => cents));
    return {
      fromSeconds: from,
      readings: within,
      levelCents,
      levelSpreadCents: tuned ? Math.hypot(tunedSpreadCents, movementHeard(within)) : levelSpreadCents,
      anchorSeconds,
    };
  });
  const present = stretches.at(-1);
  const earlier = stretches.slice(0, -1).filter(({ readings }) => readings.length > 1);
  const kept = earlier.slice(-rememberedStretches);
  if (present === undefined) return kept;
  if (present.readings.length > 0) return [...kept, present];
  return [...kept, { ...present, anchorSeconds: turns.at(-1) ?? beganAtSeconds, ...unheard(moves, stretches) }];
}

/** Where a string probably is that has been turned and not been heard: where it was heard last plus the turns since, else at wanted. */
function unheard(moves: readonly Move[], stretches: readonly Stretch[]): Pick<Stretch, 'levelCents' | 'levelSpreadCents'> {
  const heard = stretches.findLast(({ readings }) => readings.length > 0);
  const reading = heard?.readings.at(-1);
  if (reading === undefined) return { levelCents: 0, levelSpreadCents: unheardSpreadCents };
  const turned = moves.filter(({ atSeconds }) => atSeconds > reading.atSeconds).reduce((sum, { cents }) => sum + cents, 0);
  return { levelCents: reading.cents + turned, levelSpreadCents: Math.hypot(unheardSpreadCents, turned / 20) };
}

const centre = (some: readonly Reading[]) => median(some.map(({ cents }) => cents));

/** How far readings of one stretch were heard to move, in cents: between the medians of its first and its last three readings; 0 under four. */
export function movementHeard(readings: readonly Reading[]): number {
  if (readings.length < 4) return 0;
  return Math.abs(centre(readings.slice(-3)) - centre(readings.slice(0, 3)));
}
