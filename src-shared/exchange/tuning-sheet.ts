import { courseNumber, stringing, type Stringing } from '#shared/instruments/index.ts';
import { openChord, type SpelledPitch, writtenInterval } from '#shared/music/index.ts';
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
    /** `stays`, or `down a minor second`. */
    readonly move: string;
    readonly moves: boolean;
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
    lines: movesBetween(home, pitches).map(({ course, from, to, interval, semitones }) => ({
      number: courseNumber(course, pitches.length),
      home: from,
      pitches: to,
      move: semitones === 0 ? 'stays' : writtenInterval(interval),
      moves: semitones !== 0,
      offsetCents: offsetsCents[course] ?? 0,
      hertz: hertz[course] ?? [],
    })),
  };
}
