import type { Strings } from '#shared/matching/index.ts';
import type { Material } from '#shared/units/index.ts';

/** What the coach must know of a string to keep it from being overtightened. */
export type CoachString = {
  readonly material: Material;
  readonly wound: boolean;
  readonly daysSinceChange: number | null;
  readonly linearDensityKilogramsPerMetre: number | null;
};

/** A retune to be guided. Frequencies in hertz, per course and per string, from the player's eye down; seconds on one clock. */
export type Setup = {
  readonly instrument: {
    readonly scaleLengthMillimetres: number;
    readonly courses: readonly { readonly strings: readonly CoachString[] }[];
  };
  readonly present: Strings;
  readonly wanted: Strings;
  /** How far from its aim a string may stay, in cents. */
  readonly toleranceCents: number;
  readonly atSeconds: number;
};

export type CoachEvent =
  | {
      readonly kind: 'reading';
      readonly atSeconds: number;
      readonly course: number;
      readonly string: number;
      readonly hertz: number;
      readonly sigmaCents: number;
      /** False for a live frame. */
      readonly steady: boolean;
    }
  | { readonly kind: 'tick'; readonly atSeconds: number }
  | { readonly kind: 'skip' | 'back' | 'pause' | 'resume' | 'confirm'; readonly atSeconds: number }
  | { readonly kind: 'follow'; readonly atSeconds: number; readonly on: boolean };

/** What the player should do now. `centsToGo` is aim − heard: positive = tighten; null before the string was heard. */
export type Advice = {
  readonly course: number | null;
  readonly string: number | null;
  readonly action: 'pluck' | 'tighten' | 'loosen' | 'wait' | 'strum' | 'stop' | 'done';
  readonly aimHertz: number | null;
  readonly centsToGo: number | null;
  readonly why: string;
};

/** What the world should do because of an event; the coach itself does nothing. */
export type Effect =
  | {
      readonly kind: 'record';
      readonly course: number;
      readonly string: number;
      readonly atSeconds: number;
      readonly hertz: number;
      readonly sigmaCents: number;
    }
  | { readonly kind: 'turned'; readonly course: number; readonly string: number; readonly atSeconds: number; readonly cents: number }
  | { readonly kind: 'cue'; readonly cue: 'landed' | 'done' | 'stop' }
  | { readonly kind: 'announce'; readonly sentence: string };

/** A stretch of frames inside tolerance, kept as sums weighted by 1/σ². */
export type Stretch = {
  readonly seconds: number;
  readonly lastAtSeconds: number | null;
  /** Whether the sums are of frames in which the pitch stood still. */
  readonly isSteady: boolean;
  readonly weight: number;
  readonly weightedCents: number;
};

/** One string on its way. */
export type StringState = {
  readonly course: number;
  readonly string: number;
  readonly aimHertz: number;
  /** Where it is, in hertz: last heard, or as the log knows it. */
  readonly presentHertz: number;
  /** Of the last frame; null until the string was heard. */
  readonly sigmaCents: number | null;
  /** Where it was first heard in this visit, standing still if it did; null until then. */
  readonly before: { readonly hertz: number; readonly steady: boolean } | null;
  readonly inside: Stretch;
  readonly landedAtSeconds: number | null;
  readonly skipped: boolean;
};

export type CoachState = {
  readonly setup: Setup;
  readonly phase: 'turning' | 'rechecking' | 'done';
  readonly paused: boolean;
  /** The caution that the coach stopped with, or null. */
  readonly stopped: string | null;
  /** Whether whichever course is plucked becomes the current one. */
  readonly following: boolean;
  readonly limitConfirmed: boolean;
  readonly strings: readonly StringState[];
  /** Places in `strings` still to visit in this pass, the current one first; and those already visited, latest last. */
  readonly queue: readonly number[];
  readonly visited: readonly number[];
  /** When a peg was last turned by more than a touch, and whose. */
  readonly lastTurn: { readonly atSeconds: number; readonly place: number } | null;
};
