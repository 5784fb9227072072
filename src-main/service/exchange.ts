import { randomUUID } from 'node:crypto';
import { HostFailure, type ImportPreview, type ImportReceipt, type Input, type Output } from '#shared/contract/index.ts';
import {
  type LibraryRows,
  type LogOfFile,
  merge,
  mergePreview,
  type Present,
  readLibraryFile,
  rowsOfFile,
  writeLibraryFile,
} from '#shared/exchange/index.ts';
import {
  addReadings,
  addRemarks,
  addRetune,
  addTurns,
  countReadings,
  deleteSong,
  type Library,
  listEveryInstrument,
  listEveryTuning,
  listSongs,
  listStringSets,
  needOfTuning,
  putInstrument,
  putSong,
  putStringSet,
  putTuning,
  retunesOfOtherStrings,
  setInstrumentRemoved,
  setTuningRemoved,
  wholeLog,
} from '../library/index.ts';

type Rows = Library['rows'];

/** A library file with more readings than this would be too large anyway (about 250 characters each). */
const greatestReadings = 150_000;
const tooLarge = (): HostFailure =>
  new HostFailure(
    'too-large',
    'This library is too large for one file. Save it without its log; the data folder and its backups have everything.',
  );

type Kept = Present & { readonly removedInstruments: ReadonlySet<string>; readonly removedTunings: ReadonlySet<string> };

async function readPresent(rows: Rows): Promise<Kept> {
  const { instruments, removed: removedInstruments } = await listEveryInstrument(rows);
  const { tunings, removed: removedTunings } = await listEveryTuning(rows);
  return {
    instruments,
    tunings,
    stringSets: await listStringSets(rows),
    songs: await listSongs(rows),
    removed: new Set([...removedInstruments, ...removedTunings]),
    removedInstruments,
    removedTunings,
  };
}

const noLog: LogOfFile = {
  retunes: [],
  turns: [],
  readings: [],
  notes: [],
  stringChanges: [],
  warningsSeen: [],
  snoozes: [],
  corrections: [],
  changeCorrections: [],
};

/** The library as the text of a file, with or without its log; what was removed stays out. Throws `too-large`. */
export async function exportLibrary(library: Library, { log }: Input<'library.export'>): Promise<Output<'library.export'>> {
  const present = await readPresent(library.rows);
  const instruments = present.instruments.filter(({ id }) => !present.removedInstruments.has(id));
  const owners = new Set(instruments.map(({ id }) => id));
  const stringSets = present.stringSets.filter(({ instrumentId }) => owners.has(instrumentId));
  const ids = stringSets.map(({ id }) => id);
  if (log && (await countReadings(library.rows, ids)) > greatestReadings) throw tooLarge();
  const history = log ? await wholeLog(library.rows, [...owners], ids) : noLog;
  const tunings = present.tunings.filter(({ id }) => !present.removedTunings.has(id));
  try {
    return { text: writeLibraryFile({ instruments, stringSets, tunings, songs: present.songs, ...history }) };
  } catch (fault) {
    throw fault instanceof RangeError ? tooLarge() : fault;
  }
}

function rowsIn(text: string, now: number): LibraryRows {
  const read = readLibraryFile(text);
  if ('sentence' in read) throw new HostFailure('bad-input', read.sentence);
  const rows = rowsOfFile(read.file, now);
  if (!timesOf(rows).every((time) => time >= 0 && time <= latestTime))
    throw new HostFailure('bad-input', 'This library file is damaged: a time in it is in no calendar.');
  return rows;
}

/** The last moment that a Date can say, in epoch milliseconds (ECMA-262, section 21.4.1.1). */
const latestTime = 8.64e15;

const timesOf = (rows: LibraryRows): readonly number[] => [
  ...rows.stringSets.map(({ fittedAt }) => fittedAt),
  ...rows.retunes.flatMap(({ startedAt, finishedAt }) => [startedAt, finishedAt ?? startedAt]),
  ...rows.snoozes.map(({ until }) => until),
  ...[
    rows.turns,
    rows.readings,
    rows.notes,
    rows.stringChanges,
    rows.warningsSeen,
    rows.snoozes,
    rows.corrections,
    rows.changeCorrections,
  ].flatMap((some) => some.map(({ at }) => at)),
];

/** What taking in a file would do, row by row; nothing is changed. Throws `bad-input` with the sentence that refuses the file. */
export async function previewImport(library: Library, { text }: Input<'library.previewImport'>, now: number): Promise<ImportPreview> {
  const file = rowsIn(text, now);
  const rows = mergePreview(await readPresent(library.rows), file);
  return {
    rows: rows.map((row) => ({ ...row, choices: [...row.choices] })),
    retunes: file.retunes.length,
    readings: file.readings.length,
  };
}

/** Takes in a file as decided, all or nothing. Throws `bad-input` where the file is refused, or the library changed and a decision no longer fits. */
export async function importLibrary(library: Library, { text, decisions }: Input<'library.import'>, now: number): Promise<ImportReceipt> {
  const file = rowsIn(text, now);
  return library.rows.transaction().execute(async (rows) => {
    const present = await readPresent(rows);
    const { rows: come, added, replaced } = mergeOrRefuse(present, file, decisions);
    for (const tuning of come.tunings) await putTuning(rows, tuning, 'player');
    for (const instrument of come.instruments) await putInstrument(rows, instrument, 'player');
    for (const stringSet of come.stringSets) await putStringSet(rows, stringSet, 'player');
    for (const song of come.songs) await putSong(rows, song, 'player');
    await addLog(rows, come);
    const overwritten = new Set(come.stringSets.map(({ id }) => id));
    return {
      added: { instruments: [...added.instruments], tunings: [...added.tunings], songs: [...added.songs] },
      before: {
        instruments: present.instruments.filter(({ id }) => replaced.instruments.includes(id)),
        stringSets: present.stringSets.filter(({ id }) => overwritten.has(id)),
        tunings: present.tunings.filter(({ id }) => replaced.tunings.includes(id)),
        songs: present.songs.filter(({ id }) => replaced.songs.includes(id)),
      },
    };
  });
}

/** Adds the log of a file. What belongs to a retune that the library has on other strings stays out: that history is another's. */
async function addLog(rows: Rows, { retunes, turns, readings, ...remarks }: LogOfFile): Promise<void> {
  const others = await retunesOfOtherStrings(rows, retunes);
  const isOwn = ({ retuneId }: { readonly retuneId: string | null }): boolean => retuneId === null || !others.has(retuneId);
  for (const retune of retunes) if (!others.has(retune.id)) await addRetune(rows, retune, 'player');
  await addTurns(rows, turns.filter(isOwn), 'player');
  const own = readings.filter(isOwn);
  await addReadings(rows, own, 'player');
  const heard = new Set(own.map(({ id }) => id));
  await addRemarks(rows, { ...remarks, corrections: remarks.corrections.filter(({ readingId }) => heard.has(readingId)) }, 'player');
}

function mergeOrRefuse(present: Present, file: LibraryRows, decisions: Input<'library.import'>['decisions']): ReturnType<typeof merge> {
  try {
    return merge(present, file, decisions, randomUUID);
  } catch (fault) {
    if (fault instanceof RangeError)
      throw new HostFailure('bad-input', 'The library has changed since this file was looked at. Look at it again.');
    throw fault;
  }
}

/**
 * Takes an import out again at `now`, all or nothing: replaced rows are as they were, new ones are removed. Readings stay in the log, and a
 * tuning that something has needed since stays too.
 */
export async function undoImport(library: Library, { added, before }: ImportReceipt, now: number): Promise<void> {
  await library.rows.transaction().execute(async (rows) => {
    for (const tuning of before.tunings) await putTuning(rows, tuning, 'player');
    for (const instrument of before.instruments) await putInstrument(rows, instrument, 'player');
    for (const stringSet of before.stringSets) await putStringSet(rows, stringSet, 'player');
    for (const song of before.songs) await putSong(rows, song, 'player');
    for (const id of added.songs) await deleteSong(rows, id);
    for (const id of added.instruments) await setInstrumentRemoved(rows, id, now);
    for (const id of added.tunings) if ((await needOfTuning(rows, id)) === null) await setTuningRemoved(rows, id, now);
  });
}
