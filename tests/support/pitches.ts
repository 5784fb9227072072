import { parsePitches, type SpelledPitch } from '#shared/music/index.ts';
import { wantedHertz, type OpenPitches } from '#shared/tunings/index.ts';
import { hertz } from '#shared/units/index.ts';

/** Open pitches of single-string courses from a row of names: `open('G4 C4 E4 A4')`. */
export function open(row: string): OpenPitches {
  const pitches = parsePitches(row);
  if ('notAPitch' in pitches) throw new RangeError(`no pitch: ${pitches.notAPitch}`);
  return pitches.map((pitch) => [pitch]);
}

/** One pitch. */
export const pitch = (name: string): SpelledPitch => {
  const [first] = open(name).flat();
  if (first === undefined) throw new RangeError(`no pitch: ${name}`);
  return first;
};

/** Frequencies of single-string courses at A4 = 440 Hz. */
export const hertzOf = (row: string): readonly (readonly number[])[] => wantedHertz(open(row), null, hertz(440));
