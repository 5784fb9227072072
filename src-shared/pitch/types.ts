/** The strings that may sound, in hertz, and the index of the one asked for (null: none in particular). Evidence, never a cage. */
export type Hint = { readonly hertz: readonly number[]; readonly asked: number | null };

/**
 * Why a moment gives no pitch. `silence`: nothing above the gate. `attack`: just plucked, too short to measure.
 * `unclear`: no string-like sound. `clipped`: the input is cut off. `hum`: only mains hum. `two sounds`: two strings that cannot be told apart.
 */
export type RefusalReason = 'silence' | 'attack' | 'unclear' | 'clipped' | 'hum' | 'two sounds';

export type StringPitch = { readonly hertz: number; readonly sigmaCents: number };

export type PitchFrame = {
  readonly kind: 'frame';
  /**
   * The moment that `hertz` holds for, on the sample clock. What was measured ends here; its drift brings the pitch of its middle to
   * this moment, so that a turning peg is not shown late.
   */
  readonly atSeconds: number;
  /** First partial of the string. */
  readonly hertz: number;
  /** Standard error of `hertz`. */
  readonly sigmaCents: number;
  /** Further strings of the same course, where it has them and they can be told apart. */
  readonly others: readonly StringPitch[];
  /** Level of the sound, in dBFS (0 = full-scale square wave). */
  readonly levelDecibels: number;
  /** Time since the pluck; null where the pluck was not heard. */
  readonly sincePluckSeconds: number | null;
  /** Whether the pitch stands still: no glide, no turning peg. */
  readonly steady: boolean;
  /** How fast the pitch moves, in cents per second. */
  readonly driftCentsPerSecond: number;
  /** Stiffness coefficient B used, as learnt from this string. */
  readonly inharmonicity: number;
};

export type PitchRefusal = {
  readonly kind: 'refusal';
  readonly atSeconds: number;
  readonly reason: RefusalReason;
};
export type PitchEvent = PitchFrame | PitchRefusal;

export type PitchTracker = {
  push: (samples: Float32Array) => PitchEvent[];
  expect: (hint: Hint | null) => void;
  /** Forgets the sound; with `keepStiffness` not what it learnt about the strings: after a gap in the same stream. */
  reset: (options?: { readonly keepStiffness?: boolean }) => void;
};
