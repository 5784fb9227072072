import { HostFailure, type Input, type Output } from '#shared/contract/index.ts';
import type { Retune } from '#shared/log/index.ts';
import {
  addReadings,
  addRetune,
  addTurns,
  finishRetune as noteFinished,
  lastRetunes,
  type Library,
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
