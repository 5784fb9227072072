import type { Move, Reading, RetuneLog, StringLog } from '#shared/settling/index.ts';
import { eventCents, type Event } from './events.ts';
import { creepCents, type VirtualString } from './string.ts';
import { drawReading, type ReadingNoise } from './readings.ts';
import type { Random } from './random.ts';

const day = 86_400;

/** The life of one virtual string: all its moves, and all that befell it, on one clock. */
export interface Life {
  readonly string: VirtualString;
  /** Null: strung so long ago that it does not matter. */
  readonly strungAtSeconds: number | null;
  readonly moves: readonly Move[];
  readonly events: readonly Event[];
}

/** A retune to be read: its moves, when it is read, and where the string stood right after its last move (cents from wanted). */
export interface Visit {
  readonly moves: readonly Move[];
  readonly startCents: number;
  readonly readAtSeconds: readonly number[];
  readonly noise: ReadingNoise;
}

/** Where a string truly is at a moment after the visit's last move, cents from wanted. */
export function trueCents(
  { string, strungAtSeconds, moves, events }: Life,
  { moves: turns, startCents }: Visit,
  atSeconds: number,
): number {
  const tuned = turns.at(-1)?.atSeconds ?? 0;
  const carried = (at: number) =>
    creepCents(string, moves, at, strungAtSeconds) + events.reduce((sum, event) => sum + eventCents(event, at), 0);
  return startCents + carried(atSeconds) - carried(tuned);
}

/** The log of one visit. */
export function readVisit(random: Random, life: Life, visit: Visit): RetuneLog {
  const readings = visit.readAtSeconds.map((at): Reading => drawReading(random, visit.noise, at, trueCents(life, visit, at)));
  return { moves: visit.moves, readings };
}

/** The last of several logs as the present one, the earlier ones as its past. */
export function logOf(life: Life, logs: readonly RetuneLog[], nowSeconds: number): StringLog {
  const present = logs.at(-1) ?? { moves: [], readings: [] };
  const daysSinceChange = life.strungAtSeconds === null ? life.string.facts.daysSinceChange : (nowSeconds - life.strungAtSeconds) / day;
  return { ...present, past: logs.slice(0, -1), string: { ...life.string.facts, daysSinceChange } };
}
