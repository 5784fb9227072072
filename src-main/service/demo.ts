import { readFile } from 'node:fs/promises';
import { HostFailure } from '#shared/contract/index.ts';
import { type LibraryFile, readLibraryFile } from '#shared/exchange/index.ts';
import {
  absentFrom,
  addReadings,
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

async function readDemoFile(path: string): Promise<LibraryFile> {
  const text = await readFile(path, 'utf8').catch(() => null);
  if (text === null) throw new HostFailure('not-found', 'The demo library is not part of this copy of Stillstring.');
  const read = readLibraryFile(text);
  if ('sentence' in read) throw new HostFailure('bad-input', read.sentence);
  return read.file;
}

/**
 * Puts the demo library beside what the player has, all or nothing; what the player has kept of an earlier one is left as it is.
 * `now` is the moment that a file with relative times counts back from.
 * Throws `already-there` the second time, `not-found` where there is no demo file.
 */
export async function loadDemo(library: Library, file: string, now: number): Promise<void> {
  if (await hasDemoRows(library.rows)) throw new HostFailure('already-there', 'The demo library is loaded already.');
  const { instruments, stringSets, tunings, songs, retunes, turns, readings, relativeTimes } = await readDemoFile(file);
  const moment = (time: number): number => (relativeTimes ? now - time : time);
  await library.rows.transaction().execute(async (rows) => {
    for (const tuning of await absentFrom(rows, 'tunings', tunings)) await putTuning(rows, tuning, 'demo');
    for (const instrument of await absentFrom(rows, 'instruments', instruments)) await putInstrument(rows, instrument, 'demo');
    for (const stringSet of await absentFrom(rows, 'stringSets', stringSets))
      await putStringSet(rows, { ...stringSet, fittedAt: moment(stringSet.fittedAt) }, 'demo');
    for (const song of await absentFrom(rows, 'songs', songs)) await putSong(rows, song, 'demo');
    for (const retune of retunes) {
      const finishedAt = retune.finishedAt === null ? null : moment(retune.finishedAt);
      await addRetune(rows, { ...retune, startedAt: moment(retune.startedAt), finishedAt }, 'demo');
    }
    await addTurns(
      rows,
      turns.map((turn) => ({ ...turn, at: moment(turn.at) })),
      'demo',
    );
    await addReadings(
      rows,
      readings.map((reading) => ({ ...reading, at: moment(reading.at) })),
      'demo',
    );
  });
}

/** Takes the demo library out again; what the player has meanwhile used of it stays. Without one, nothing happens. */
export async function removeDemo(library: Library): Promise<void> {
  await library.rows.transaction().execute(deleteDemoRows);
}
