import { readFile } from 'node:fs/promises';
import { HostFailure } from '#shared/contract/index.ts';
import { type LibraryRows, readLibraryFile, rowsOfFile } from '#shared/exchange/index.ts';
import {
  absentFrom,
  addReadings,
  addRemarks,
  addRetune,
  addTurns,
  deleteDemoRows,
  hasDemoRows,
  type Library,
  putInstrument,
  putSong,
  putStringSet,
  putTuning,
} from '../library/index.ts';

async function readDemoFile(path: string, now: number): Promise<LibraryRows> {
  const text = await readFile(path, 'utf8').catch(() => null);
  if (text === null) throw new HostFailure('not-found', 'The demo library is not part of this copy of Stillstring.');
  const read = readLibraryFile(text);
  if ('sentence' in read) throw new HostFailure('bad-input', read.sentence);
  return rowsOfFile(read.file, now);
}

/**
 * Puts the demo library beside what the player has, all or nothing; what the player has kept of an earlier one is left as it is.
 * `now` is the moment that a file with relative times counts back from.
 * Throws `already-there` the second time, `not-found` where there is no demo file.
 */
export async function loadDemo(library: Library, file: string, now: number): Promise<void> {
  if (await hasDemoRows(library.rows)) throw new HostFailure('already-there', 'The demo library is loaded already.');
  const { instruments, stringSets, tunings, songs, retunes, turns, readings, ...remarks } = await readDemoFile(file, now);
  await library.rows.transaction().execute(async (rows) => {
    for (const tuning of await absentFrom(rows, 'tunings', tunings)) await putTuning(rows, tuning, 'demo');
    for (const instrument of await absentFrom(rows, 'instruments', instruments)) await putInstrument(rows, instrument, 'demo');
    for (const stringSet of await absentFrom(rows, 'stringSets', stringSets)) await putStringSet(rows, stringSet, 'demo');
    for (const song of await absentFrom(rows, 'songs', songs)) await putSong(rows, song, 'demo');
    for (const retune of retunes) await addRetune(rows, retune, 'demo');
    await addTurns(rows, turns, 'demo');
    await addReadings(rows, readings, 'demo');
    await addRemarks(rows, remarks, 'demo');
  });
}

/** Takes the demo library out again; what the player has meanwhile used of it stays. Without one, nothing happens. */
export async function removeDemo(library: Library): Promise<void> {
  await library.rows.transaction().execute(deleteDemoRows);
}
