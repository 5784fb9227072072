import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { type LibraryFile, readLibraryFile } from '#shared/exchange/index.ts';
import { readWav, type Recording } from '#shared/recording/index.ts';
import type { DemoRecording, TruePluck } from '../../demo-data/recordings.ts';

type Truth = Omit<DemoRecording, 'samples'> & { readonly seconds: number };

const demoFolder = new URL('../../demo-data/', import.meta.url);

/** Path of a demo recording. */
export const recordingPath = (file: string): string => fileURLToPath(new URL(`recordings/${file}`, demoFolder));

/** A demo recording. */
export function demoRecording(file: string): Recording {
  const recording = readWav(readFileSync(recordingPath(file)));
  if ('failure' in recording) throw new Error(recording.failure.sentence);
  return recording;
}

/** What is true of a demo recording. */
export function truthOf(file: string): Truth {
  const { recordings } = JSON.parse(readFileSync(new URL('recordings/truth.json', demoFolder), 'utf8')) as { recordings: readonly Truth[] };
  const truth = recordings.find((one) => one.file === file);
  if (truth === undefined) throw new Error(`no truth for ${file}`);
  return truth;
}

/** The last steady pluck of every course, from the player's eye down. */
export const lastSteady = (plucks: readonly TruePluck[]): ReadonlyMap<number, TruePluck> =>
  new Map(plucks.filter(({ steady }) => steady).map((pluck) => [pluck.course, pluck]));

/** The demo library. */
export function demoLibrary(): LibraryFile {
  const read = readLibraryFile(readFileSync(new URL('library.json', demoFolder), 'utf8'));
  if ('sentence' in read) throw new Error(read.sentence);
  return read.file;
}
