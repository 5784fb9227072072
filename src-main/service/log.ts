import { HostFailure, type Input, type Output } from '#shared/contract/index.ts';
import { type NamedReading, readingsCsv } from '#shared/exchange/index.ts';
import { courseNumber } from '#shared/instruments/index.ts';
import type { Retune } from '#shared/log/index.ts';
import {
  addReadings,
  addRetune,
  addTurns,
  finishRetune as noteFinished,
  lastRetunes,
  type Library,
  listEveryInstrument,
  listStringSets,
  readingsPage,
  readingsSince,
  setInstrumentTuning,
  turnsOf,
} from '../library/index.ts';

/** The last `retunes` retunes of a string set with all that was turned and heard since the first of them; where there are no more, from the start. */
export async function readLog(library: Library, { stringSetId, retunes: count }: Input<'log.read'>): Promise<Output<'log.read'>> {
  const found = await lastRetunes(library.rows, stringSetId, count + 1);
  const retunes = found.slice(-count);
  const since = found.length > count ? (retunes[0]?.startedAt ?? 0) : 0;
  return {
    retunes,
    turns: await turnsOf(
      library.rows,
      retunes.map(({ id }) => id),
    ),
    readings: await readingsSince(library.rows, stringSetId, since),
  };
}

/** Writes down that a retune began. Told twice, it is written once. Throws `not-found` where the instrument, strings or a tuning are unknown. */
export async function beginRetune(library: Library, retune: Retune): Promise<void> {
  await library.rows.transaction().execute((rows) => addRetune(rows, retune, 'player'));
}

/** Writes down that a retune is done; the instrument is then in the tuning that it was taken to. Told twice, the first holds. Throws `not-found`. */
export async function finishRetune(library: Library, { id, finishedAt }: Input<'log.finishRetune'>): Promise<void> {
  await library.rows.transaction().execute(async (rows) => {
    const before = await noteFinished(rows, id, finishedAt);
    if (before === null) throw new HostFailure('not-found', 'The log knows of no such retune.');
    if (before.finishedAt === null) await setInstrumentTuning(rows, before.instrumentId, before.toTuningId);
  });
}

/** Appends what was turned and heard, all or nothing; rows that are there already are left as they are. Throws `not-found`. */
export async function appendToLog(library: Library, { turns, readings }: Input<'log.append'>): Promise<void> {
  await library.rows.transaction().execute(async (rows) => {
    await addTurns(rows, turns, 'player');
    await addReadings(rows, readings, 'player');
  });
}

/** Readings in one page of CSV (own choice: some 400 kB). */
const readingsInPage = 4000;

/** A page of an instrument's readings as CSV, whatever strings it had on; `next` is where the next page begins, null after the last. Throws `not-found`. */
export async function readCsv(library: Library, { instrumentId, after }: Input<'log.csv'>): Promise<Output<'log.csv'>> {
  const { instruments } = await listEveryInstrument(library.rows);
  const name = instruments.find(({ id }) => id === instrumentId)?.name;
  if (name === undefined) throw new HostFailure('not-found');
  const sets = new Map((await listStringSets(library.rows, instrumentId)).map((set) => [set.id, set]));
  const page = await readingsPage(library.rows, [...sets.keys()], after, readingsInPage);
  const named = page.map((reading): NamedReading => {
    const set = sets.get(reading.stringSetId);
    return {
      ...reading,
      time: new Date(reading.at).toISOString(),
      instrument: name,
      strings: set?.name ?? '',
      courseNumber: courseNumber(reading.course, set?.courses.length ?? reading.course + 1),
      stringNumber: reading.string + 1,
    };
  });
  return { text: readingsCsv(named, after === 0), next: page.length < readingsInPage ? null : (page.at(-1)?.row ?? null) };
}
