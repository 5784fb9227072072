import { parseArgs } from 'node:util';
import { type InstrumentPreset, instrumentPresets, homePitches, stringSetFromPreset, type StringSet } from '#shared/instruments/index.ts';
import { parsePitches, type SpelledPitch } from '#shared/music/index.ts';
import { carry, type OpenPitches, tuningPresets } from '#shared/tunings/index.ts';

/** What `listen` is asked: a recording, the strings that sound in it, from where to where. */
export type Question = {
  readonly file: string;
  readonly preset: InstrumentPreset;
  readonly stringSet: StringSet;
  readonly from: OpenPitches;
  readonly wanted: OpenPitches;
  readonly referenceHertz: number;
  readonly toleranceCents: number;
  readonly asJson: boolean;
};

/** Wrong words on the command line; the sentence says which. */
export class UsageError extends Error {}

export const usage = `npm run listen -- FILE.wav --instrument KIND --tuning PITCHES|NAME [--from PITCHES|NAME] [--reference HERTZ] [--tolerance CENTS] [--json]
  KIND      one of: ${instrumentPresets.map(({ id }) => id).join(', ')}
  PITCHES   one a course from the player's eye down, like "G4 Bb3 Eb4 Bb4"; NAME a starter tuning: ${[...new Set(tuningPresets.map(({ name }) => name))].join(', ')}
  --from    where the strings were before; the instrument's home tuning unless given
exit codes: 0 every course within tolerance · 1 a course off or not heard · 2 wrong words · 3 no readable recording · 4 nothing to be heard in it`;

/** Reads the command line. Throws UsageError with a sentence. */
export function readArguments(words: readonly string[]): Question {
  const { values, positionals } = parse(words);
  const [file, ...more] = positionals;
  if (file === undefined) throw new UsageError('Name a recording.');
  if (more.length > 0) throw new UsageError(`One recording at a time; what is “${more.join(' ')}”?`);
  if (values.instrument === undefined) throw new UsageError('Say which instrument it is with --instrument.');
  if (values.tuning === undefined) throw new UsageError('Say which tuning is wanted with --tuning.');
  const preset = instrumentPresets.find(({ id }) => id === values.instrument);
  if (preset === undefined) throw new UsageError(`There is no instrument “${values.instrument}”.`);
  const stringSet = stringSetFromPreset(preset, { id: 'recorded', instrumentId: 'recorded', name: 'as recorded', fittedAt: 0 });
  return {
    file,
    preset,
    stringSet,
    from: values.from === undefined ? homePitches(stringSet) : tuningFrom(values.from, stringSet),
    wanted: tuningFrom(values.tuning, stringSet),
    referenceHertz: numberFrom('--reference', values.reference, 400, 480, 440),
    toleranceCents: numberFrom('--tolerance', values.tolerance, 0.5, 50, 3),
    asJson: values.json ?? false,
  };
}

function parse(words: readonly string[]) {
  const text = { type: 'string' } as const;
  try {
    return parseArgs({
      args: [...words],
      allowPositionals: true,
      options: { instrument: text, tuning: text, from: text, reference: text, tolerance: text, json: { type: 'boolean' } },
    });
  } catch (fault) {
    throw new UsageError(fault instanceof Error ? fault.message : String(fault));
  }
}

function numberFrom(option: string, given: string | undefined, least: number, most: number, usual: number): number {
  const value = given === undefined ? usual : Number(given);
  if (!(value >= least && value <= most)) throw new UsageError(`${option} is a number from ${least} to ${most}; “${given}” is not.`);
  return value;
}

const single = (row: readonly SpelledPitch[]) => row.map((pitch) => [pitch]);

/** A tuning by its pitches, or by the name of a starter tuning carried over to these strings. */
function tuningFrom(words: string, stringSet: StringSet): OpenPitches {
  const home = homePitches(stringSet);
  const pitches = parsePitches(words);
  if (!('notAPitch' in pitches)) return byCourse(pitches, home, words);
  for (const preset of tuningPresets.filter(({ name }) => name.toLowerCase() === words.toLowerCase())) {
    const carried = carry(
      { courses: single(preset.pitches).map((row) => ({ pitches: row, offsetCents: 0 })), home: single(preset.home) },
      home,
    );
    if (carried?.sameShapes === true) return carried.pitches;
  }
  throw new UsageError(
    `“${words}” is neither a starter tuning for this instrument nor a row of pitches: “${pitches.notAPitch}” is no pitch.`,
  );
}

function byCourse(pitches: readonly SpelledPitch[], home: OpenPitches, words: string): OpenPitches {
  const strings = home.flat().length;
  if (pitches.length !== strings) throw new UsageError(`This instrument has ${strings} strings; “${words}” names ${pitches.length}.`);
  let next = 0;
  return home.map((course) => course.map((pitch) => pitches[next++] ?? pitch));
}
