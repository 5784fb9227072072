import type { Material } from '#shared/units/index.ts';

// The words in which the room is asked and answers. Seconds are on one clock, whichever it is; cents are from wanted, positive = sharp.

/** What is known of a string before it is heard. `daysSinceChange` counts up to `nowSeconds`; null where nobody noted the day. */
export interface StringFacts {
  readonly material: Material;
  readonly wound: boolean;
  readonly daysSinceChange: number | null;
}

/** One turn of the string's own peg: how far it took the string, in cents, positive = raised. */
export interface Move {
  readonly atSeconds: number;
  readonly cents: number;
}

/** One trusted measurement with its standard deviation in cents (above 0). */
export interface Reading {
  readonly atSeconds: number;
  readonly cents: number;
  readonly sigmaCents: number;
}

/** One retune of one string: its moves and what was read afterwards, each oldest first. */
export interface RetuneLog {
  readonly moves: readonly Move[];
  readonly readings: readonly Reading[];
}

/** One string as the log tells it: the retune it is in, and the same string's earlier ones, oldest first. */
export interface StringLog extends RetuneLog {
  readonly string: StringFacts;
  readonly past: readonly RetuneLog[];
}

/** How far from wanted is good enough (cents, above 0), and for how long it has to hold (seconds, above 0). */
export interface Policy {
  readonly toleranceCents: number;
  readonly horizonSeconds: number;
}

/** What `assess` is asked: every string of one instrument, and the moment. */
export interface Question {
  readonly courses: readonly StringLog[];
  readonly nowSeconds: number;
  readonly policy: Policy;
}

/** Where a string is expected, in cents from wanted: the mean and the ends of the 90 % band. */
export interface Forecast {
  readonly cents: number;
  readonly low: number;
  readonly high: number;
}

/** A step that creep does not explain; `atSeconds` is the first reading after it, `cents` its size, negative = flat. */
export interface Slip {
  readonly atSeconds: number;
  readonly cents: number;
}

/** Moving ever more slowly; staying inside tolerance for the horizon; losing pitch in steps or without slowing; not heard since its last move. */
export type Verdict = 'settling' | 'holding' | 'slipping' | 'unheard';

/** The answer for one string. */
export interface Assessment {
  readonly verdict: Verdict;
  /** Where the string will be at a moment, in cents from wanted. */
  readonly forecast: (atSeconds: number) => Forecast;
  /** From when on it moves no more than the tolerance within one horizon (a touch-up made then holds); null if that is more than 30 days away. */
  readonly holdsFromSeconds: number | null;
  /** Slips since this retune began, oldest first. */
  readonly slips: readonly Slip[];
  /** Two slips within three retunes, or a slide that does not slow. */
  readonly keepsSlipping: boolean;
  /** When the next reading would tell most; null when none is needed within the horizon. */
  readonly nextCheckSeconds: number | null;
  /** One plain sentence with numbers; durations only, never the time of day. */
  readonly why: string;
  /** How far it is expected to move from now to the end of the horizon, in cents. */
  readonly driftCents: number;
  /** Whether it is expected inside the tolerance now; null when unheard. */
  readonly insideTolerance: boolean | null;
}
