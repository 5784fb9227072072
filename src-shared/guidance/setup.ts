import type { Strings } from '#shared/matching/index.ts';
import type { Material } from '#shared/units/index.ts';

/** What the coach must know of a string: to foresee what it does, and to keep it from being overtightened. */
export type CoachString = {
  readonly material: Material;
  readonly wound: boolean;
  readonly daysSinceChange: number | null;
  readonly linearDensityKilogramsPerMetre: number | null;
};

type Place = { readonly course: number; readonly string: number };

/** An earlier retune as the log has it. `cents` of a turn: how far it took its string; positive = tightened. */
export type LearnedRetune = {
  readonly startedAtSeconds: number;
  readonly wanted: readonly (readonly number[])[];
  readonly turns: readonly (Place & { readonly atSeconds: number; readonly cents: number })[];
  readonly readings: readonly (Place & { readonly atSeconds: number; readonly hertz: number; readonly sigmaCents: number })[];
};

/** What the coach may learn from: earlier retunes of this string set, oldest first. */
export type Learned = { readonly retunes: readonly LearnedRetune[] };

/** A retune to be guided. Frequencies in hertz, per course and per string, from the player's eye down; seconds on one clock. */
export type Setup = {
  readonly instrument: {
    readonly scaleLengthMillimetres: number;
    /** A course has a scale length of its own where it differs, as on a short fifth string. */
    readonly courses: readonly { readonly strings: readonly CoachString[]; readonly scaleLengthMillimetres?: number | null }[];
  };
  readonly present: Strings;
  readonly wanted: Strings;
  /** How far from its aim a string may stay, in cents. */
  readonly toleranceCents: number;
  readonly atSeconds: number;
  /** Until when the strings are to settle onto what is wanted, and how far an aim may lie beside it for that; null or left out = no lead. */
  readonly lead?: { readonly untilSeconds: number; readonly capCents: number } | null;
  /** Earlier retunes of this string set, oldest first. */
  readonly learned?: Learned;
  /** How far below its aim a lowered string is taken before it is brought up (common practice for pegs with play), in cents; 0 or left out = not at all. */
  readonly undershootCents?: number;
  /** Whether all courses are heard in one strum after the pegs were turned, in place of plucking each again. Off where left out. */
  readonly strumCheck?: boolean;
};
