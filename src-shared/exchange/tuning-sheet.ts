import { courseNumber, stringing, type Stringing } from '#shared/instruments/index.ts';
import { openChord, type SpelledPitch } from '#shared/music/index.ts';
import { movesBetween, type OpenPitches } from '#shared/tunings/index.ts';

/** A tuning on one instrument, ready for paper: what stands in each line of the sheet. */
export type TuningSheet = {
  readonly chord: string | null;
  readonly stringing: Stringing;
  /** From the player's eye down. */
  readonly lines: readonly {
    readonly number: number;
    readonly home: readonly SpelledPitch[];
    readonly pitches: readonly SpelledPitch[];
    /** From home, of the string that moves furthest; positive = tighten, 0 = stays. */
    readonly semitones: number;
    readonly offsetCents: number;
    readonly hertz: readonly number[];
  }[];
};

/**
 * The sheet of a tuning: its pitches on an instrument whose home is `home`, with the frequencies that they have at tonight's reference.
 * Throws RangeError where `home` and `pitches` have not the same courses and strings.
 */
export function tuningSheet(
  home: OpenPitches,
  pitches: OpenPitches,
  hertz: readonly (readonly number[])[],
  offsetsCents: readonly number[],
): TuningSheet {
  return {
    chord: openChord(pitches.flat()),
    stringing: stringing(pitches),
    lines: movesBetween(home, pitches).map(({ course, from, to, semitones }) => ({
      number: courseNumber(course, pitches.length),
      home: from,
      pitches: to,
      semitones,
      offsetCents: offsetsCents[course] ?? 0,
      hertz: hertz[course] ?? [],
    })),
  };
}
