import type { Coupling } from './coupling.ts';
import type { Drift } from './drift.ts';
import type { Sounding } from './landing.ts';
import type { Setup } from './setup.ts';

/** Every string as a strum was read, per course and string: its pitch, or why there is none. */
export type StrumHeard = readonly (readonly ({ readonly hertz: number; readonly sigmaCents: number } | { readonly refusal: string })[])[];

/**
 * What a strum told of one string. `cents` is how far it has to go, positive = tighten; null where it was not told.
 * `reason` to pluck it by itself: not heard, alike with another string, or too near the edge of tolerance for its sigma.
 */
export type StrumVerdict = {
  readonly course: number;
  readonly string: number;
  readonly kind: 'leave' | 'turn' | 'pluck';
  readonly hertz: number | null;
  readonly cents: number | null;
  readonly sigmaCents: number | null;
  readonly reason: 'unheard' | 'alike' | 'unsure' | null;
};

/** The last strum: when it was read, how many there were, what it told of each string by place, and its outcome as a sentence; null verdicts where it could not be read. */
export type Strummed = {
  readonly atSeconds: number;
  readonly count: number;
  readonly verdicts: readonly StrumVerdict[] | null;
  readonly sentence: string;
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
  /** One strum as `readStrum` of pitch gave it, for `listenForStrum`; `atSeconds` is when it was read, on the clock of the frames. */
  | { readonly kind: 'strum'; readonly atSeconds: number; readonly courses: StrumHeard }
  | { readonly kind: 'tick'; readonly atSeconds: number }
  /** `strum-again` asks for one more strum of all courses; `pluck-instead` asks for plucks in place of the one that is waited for. */
  | {
      readonly kind: 'skip' | 'back' | 'pause' | 'resume' | 'confirm' | 'strum-again' | 'pluck-instead';
      readonly atSeconds: number;
    }
  /** Whether the retune ends with a strum, from now on. */
  | { readonly kind: 'strum-check'; readonly atSeconds: number; readonly on: boolean }
  | { readonly kind: 'follow'; readonly atSeconds: number; readonly on: boolean }
  /** A new string was put on: it is visited next, and what was learned of the old one is forgotten. */
  | { readonly kind: 'restring'; readonly atSeconds: number; readonly course: number; readonly string: number };

/** What a move still to come is expected to do to another string, in cents; negative = it takes off. */
export type Pull = { readonly course: number; readonly string: number; readonly cents: number };

/**
 * What the player should do now. `centsToGo` is aim − heard: positive = tighten; null before the string was heard.
 * The aim lies `leadCents + couplingCents` above wanted: what settling will take off, and what the moves still to come (`pulls`) will.
 */
export type Advice = {
  readonly course: number | null;
  readonly string: number | null;
  readonly action: 'pluck' | 'tighten' | 'loosen' | 'wait' | 'strum' | 'stop' | 'done';
  readonly aimHertz: number | null;
  readonly centsToGo: number | null;
  readonly leadCents: number | null;
  readonly couplingCents: number | null;
  readonly pulls: readonly Pull[];
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
      /** Left out: from a pluck. */
      readonly source?: 'strum';
    }
  | { readonly kind: 'turned'; readonly course: number; readonly string: number; readonly atSeconds: number; readonly cents: number }
  | { readonly kind: 'cue'; readonly cue: 'landed' | 'done' | 'stop' }
  | { readonly kind: 'announce'; readonly sentence: string };

/** One stay at a string: where it was found, and how it has moved since. */
export type Visit = {
  /** Where it was first heard, standing still if it did. */
  readonly before: { readonly atSeconds: number; readonly hertz: number; readonly sigmaCents: number; readonly steady: boolean };
  readonly frames: number;
  /** The least distance from the aim so far, in cents; from here, turning away is noticed. */
  readonly nearestCents: number;
  /** Since when the string has stood where it is while it should be turned, and in how many plucks. */
  readonly still: { readonly hertz: number; readonly sinceSeconds: number; readonly lastSeconds: number; readonly plucks: number };
  /** What the player should notice, or null. */
  readonly notice: string | null;
  /** Whether a lowered string has been below its aim by the undershoot. */
  readonly undershot: boolean;
};

/** Where a string was last trusted to be, and what has pulled at it since. */
export type Standing = {
  readonly hertz: number;
  readonly sigmaCents: number;
  readonly atSeconds: number;
  /** By place: how many newtons the other strings have gained since. */
  readonly gainedNewtons: readonly number[];
};

/** The sound that is going on: whose it is taken to be, where it was last, and when it was plucked, if that was heard. */
export type Sound = {
  readonly course: number;
  readonly string: number;
  readonly hertz: number;
  readonly atSeconds: number;
  readonly pluckedAtSeconds: number | null;
};

/** A pluck that could be of several courses, or of none: the same course has to be plucked once more, by itself. */
export type Doubt = { readonly sound: Sound; readonly sentence: string };

/** One string on its way. */
export type StringState = {
  readonly course: number;
  readonly string: number;
  readonly wantedHertz: number;
  readonly aimHertz: number;
  readonly leadCents: number;
  readonly couplingCents: number;
  readonly pulls: readonly Pull[];
  /** Where it is, in hertz: last heard, or as the log knows it, with what the other pegs are expected to have done since. */
  readonly presentHertz: number;
  /** Of the last frame; null until the string was heard. */
  readonly sigmaCents: number | null;
  readonly standing: Standing;
  /** Null until it is heard in this visit. */
  readonly visit: Visit | null;
  /** How it sounded last in this visit; null until then. */
  readonly sounding: Sounding | null;
  /** For how long it has lain inside its tolerance. */
  readonly inside: { readonly seconds: number };
  readonly landedAtSeconds: number | null;
  readonly skipped: boolean;
  /** How often it has landed in this retune. */
  readonly landings: number;
  /** Turns of its own peg in this retune. */
  readonly moves: readonly { readonly atSeconds: number; readonly cents: number }[];
  /** How it creeps, and the turns of earlier days that still matter. */
  readonly drift: Drift;
};

export type CoachState = {
  readonly setup: Setup;
  readonly phase: 'turning' | 'rechecking' | 'strumming' | 'done';
  readonly nowSeconds: number;
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
  /** The sound that was heard last; it stays one string's until a new pluck. Null until one was heard. */
  readonly sound: Sound | null;
  /** What is to be plucked again before it is believed, or null. */
  readonly doubt: Doubt | null;
  /** What the last strum told, or null. */
  readonly strummed: Strummed | null;
  /** Whether a peg was turned since the last strum, or there was none. */
  readonly turnedSinceStrum: boolean;
  /** What is known of how the strings pull at one another. */
  readonly coupling: Coupling;
};
