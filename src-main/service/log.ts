import { HostFailure, type Input, type LogAddition, type Output } from '#shared/contract/index.ts';
import { type NamedReading, readingsCsv } from '#shared/exchange/index.ts';
import { courseNumber } from '#shared/instruments/index.ts';
import type { Retune } from '#shared/log/index.ts';
import {
  addReadings,
  addRemarks,
  addRetune,
  addTurns,
  changesOf,
  finishRetune as noteFinished,
  lastRetunes,
  type Library,
  listEveryInstrument,
  listStringSets,
  readingsOf,
  readingsPage,
  readingsSummedUp,
  setInstrumentTuning,
  turnsOf,
  wrongReadings,
} from '../library/index.ts';
import { checkStrings } from './check-strings.ts';
import { putStringsAsCorrected } from './remarks.ts';

/** No more readings of a string are looked back on, the latest ones (own choice: a long evening has some thirty). */
const mostReadingsOfString = 1000;

type Rows = Library['rows'];
type Log = Omit<Output<'log.read'>, 'wrong'>;

/** The logs of several string sets, in as many queries as for one: the last `count` retunes of each with what was turned and heard since. */
export async function logsOf(rows: Rows, stringSetIds: readonly string[], count: number): Promise<ReadonlyMap<string, Log>> {
  const retunesOf = Map.groupBy(await lastRetunes(rows, stringSetIds, count + 1), ({ stringSetId }) => stringSetId);
  const retunes = new Map(stringSetIds.map((id) => [id, (retunesOf.get(id) ?? []).slice(-count)]));
  // Where there are no more retunes, from the start.
  const spans = stringSetIds.map((stringSetId) => ({
    stringSetId,
    since: (retunesOf.get(stringSetId)?.length ?? 0) > count ? (retunes.get(stringSetId)?.[0]?.startedAt ?? 0) : 0,
  }));
  const turns = await turnsOf(
    rows,
    [...retunes.values()].flat().map(({ id }) => id),
  );
  const turnsOfRetune = Map.groupBy(turns, ({ retuneId }) => retuneId);
  const readings = Map.groupBy(await readingsOf(rows, spans, mostReadingsOfString), ({ stringSetId }) => stringSetId);
  const changes = Map.groupBy(await changesOf(rows, stringSetIds), ({ stringSetId }) => stringSetId);
  return new Map(
    stringSetIds.map((id) => {
      const own = retunes.get(id) ?? [];
      const changed = changes.get(id) ?? [];
      const isOfThisString = (turn: Log['turns'][number]): boolean =>
        !changed.some(({ course, string, at }) => course === turn.course && string === turn.string && at > turn.at);
      return [
        id,
        {
          retunes: own,
          turns: own.flatMap((retune) => turnsOfRetune.get(retune.id) ?? []).filter(isOfThisString),
          readings: readings.get(id) ?? [],
          changes: changed,
        },
      ];
    }),
  );
}

/**
 * The last `retunes` retunes of a string set with all that was turned and heard since the first of them; where there are no more, from the start.
 * A string that was changed by itself begins anew; what is marked as wrong stands apart.
 */
export async function readLog({ rows }: Library, { stringSetId, retunes: count }: Input<'log.read'>): Promise<Output<'log.read'>> {
  const log = (await logsOf(rows, [stringSetId], count)).get(stringSetId);
  if (log === undefined) throw new Error(`the log of ${stringSetId} was asked for and not read`);
  return { ...log, wrong: await wrongReadings(rows, stringSetId) };
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

/**
 * Appends what was turned, heard and said, all or nothing; rows that are there already are left as they are.
 * Throws `not-found`, and `bad-input` where a row names a string that its string set does not have.
 */
export async function appendToLog(library: Library, input: LogAddition): Promise<void> {
  await library.rows.transaction().execute(async (rows) => {
    await checkStrings(rows, input);
    await addTurns(rows, input.turns, 'player');
    await addReadings(rows, input.readings, 'player');
    await addRemarks(rows, { ...input, stringChanges: [] }, 'player');
    await putStringsAsCorrected(rows, input.changeCorrections);
  });
}

/** Readings of a string set summed up in SQL, stretch by stretch. */
export const readSummary = ({ rows }: Library, stretches: Input<'log.summary'>): Promise<Output<'log.summary'>> =>
  readingsSummedUp(rows, stretches);

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
