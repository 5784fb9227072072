import { type Kysely, type RawBuilder, sql } from 'kysely';
import { type Reading, type Retune, retuneSchema, type Turn } from '#shared/log/index.ts';
import type { Origin, Tables } from './tables.ts';

type Rows = Kysely<Tables>;

/** Rows written by one statement; SQLite takes 32 766 values in one, and no row here has more than 14. */
const rowsAtOnce = 1000;

function* portions<Row>(rows: readonly Row[]): Generator<readonly Row[]> {
  for (let from = 0; from < rows.length; from += rowsAtOnce) yield rows.slice(from, from + rowsAtOnce);
}

/** Adds a retune with the frequencies that it wants. One that is there already is left as it is. */
export async function addRetune(rows: Rows, retune: Retune, origin: Origin): Promise<void> {
  const { wantedHertz, ...row } = retune;
  const added = await rows
    .insertInto('retunes')
    .values({ ...row, origin })
    .onConflict((conflict) => conflict.column('id').doNothing())
    .executeTakeFirst();
  if (added.numInsertedOrUpdatedRows === 0n) return;
  const strings = wantedHertz.flatMap((course, index) =>
    course.map((hertz, string) => ({ retuneId: retune.id, course: index, string, wantedHertz: hertz })),
  );
  await rows.insertInto('retuneStrings').values(strings).execute();
}

/** Notes when a retune was finished. Returns it as it was before, or null where there is none of that id. */
export async function finishRetune(
  rows: Rows,
  id: string,
  finishedAt: number,
): Promise<Pick<Retune, 'instrumentId' | 'toTuningId' | 'finishedAt'> | null> {
  const before = await rows
    .selectFrom('retunes')
    .select(['instrumentId', 'toTuningId', 'finishedAt'])
    .where('id', '=', id)
    .executeTakeFirst();
  await rows.updateTable('retunes').set({ finishedAt }).where('id', '=', id).where('finishedAt', 'is', null).execute();
  return before ?? null;
}

/** Adds turns of pegs. Those that are there already are left as they are. */
export async function addTurns(rows: Rows, turns: readonly Turn[], origin: Origin): Promise<void> {
  for (const portion of portions(turns)) {
    const values = portion.map((turn) => ({ ...turn, origin }));
    await rows
      .insertInto('turns')
      .values(values)
      .onConflict((conflict) => conflict.column('id').doNothing())
      .execute();
  }
}

/** Adds readings. Those that are there already are left as they are. */
export async function addReadings(rows: Rows, readings: readonly Reading[], origin: Origin): Promise<void> {
  for (const portion of portions(readings)) {
    const values = portion.map((reading) => ({ ...reading, origin }));
    await rows
      .insertInto('readings')
      .values(values)
      .onConflict((conflict) => conflict.column('id').doNothing())
      .execute();
  }
}

/** Any number of ids for an `in`, as one value: a value each would end at SQLite's 32 766. */
const listOf = (ids: readonly string[]): RawBuilder<string> => sql<string>`(SELECT value FROM json_each(${JSON.stringify(ids)}))`;

/** Which of these retunes have the id of one that the library has on other strings. */
export async function retunesOfOtherStrings(rows: Rows, retunes: readonly Retune[]): Promise<ReadonlySet<string>> {
  const setOf = new Map(retunes.map(({ id, stringSetId }) => [id, stringSetId]));
  const found = await rows
    .selectFrom('retunes')
    .select(['id', 'stringSetId'])
    .where('id', 'in', listOf([...setOf.keys()]))
    .execute();
  return new Set(found.flatMap(({ id, stringSetId }) => (setOf.get(id) === stringSetId ? [] : [id])));
}

async function withWantedHertz(rows: Rows, found: readonly Tables['retunes'][]): Promise<Retune[]> {
  const strings = await rows
    .selectFrom('retuneStrings')
    .selectAll()
    .where('retuneId', 'in', listOf(found.map(({ id }) => id)))
    .orderBy('retuneId')
    .orderBy('course')
    .orderBy('string')
    .execute();
  const stringsOf = Map.groupBy(strings, ({ retuneId }) => retuneId);
  return found.map(({ origin: _origin, ...row }) => {
    const wantedHertz: number[][] = [];
    for (const { course, wantedHertz: hertz } of stringsOf.get(row.id) ?? []) (wantedHertz[course] ??= []).push(hertz);
    return retuneSchema.parse({ ...row, wantedHertz });
  });
}

/** The last `count` retunes of a string set, oldest first. */
export async function lastRetunes(rows: Rows, stringSetId: string, count: number): Promise<Retune[]> {
  const newestFirst = await rows
    .selectFrom('retunes')
    .selectAll()
    .where('stringSetId', '=', stringSetId)
    .orderBy('startedAt', 'desc')
    .orderBy('id', 'desc')
    .limit(count)
    .execute();
  return withWantedHertz(rows, newestFirst.toReversed());
}

/** The turns of these retunes, oldest first. */
export async function turnsOf(rows: Rows, retuneIds: readonly string[]): Promise<Turn[]> {
  return rows
    .selectFrom('turns')
    .select(['id', 'retuneId', 'at', 'course', 'string', 'cents'])
    .where('retuneId', 'in', listOf(retuneIds))
    .orderBy('at')
    .orderBy('id')
    .execute();
}

/** The columns of a reading, without its origin. */
export const readingColumns = [
  'id',
  'stringSetId',
  'retuneId',
  'at',
  'course',
  'string',
  'hertz',
  'wantedHertz',
  'deviationCents',
  'sigmaCents',
  'source',
] as const;

/** The readings of a string set from epoch milliseconds `since` on, oldest first. */
export async function readingsSince(rows: Rows, stringSetId: string, since: number): Promise<Reading[]> {
  return rows
    .selectFrom('readings')
    .select(readingColumns)
    .where('stringSetId', '=', stringSetId)
    .where('at', '>=', since)
    .orderBy('at')
    .orderBy('id')
    .execute();
}

/** Whether any string of a set was ever retuned or heard. */
export async function hasHistory(rows: Rows, stringSetId: string): Promise<boolean> {
  const retune = await rows.selectFrom('retunes').select('id').where('stringSetId', '=', stringSetId).executeTakeFirst();
  const reading = await rows.selectFrom('readings').select('id').where('stringSetId', '=', stringSetId).executeTakeFirst();
  return retune !== undefined || reading !== undefined;
}

/**
 * The last reading of every string that is fitted to an instrument not removed. One look into an index per string, so that it takes no longer
 * with a million readings than with a hundred.
 */
export async function lastReadingsOfFitted(rows: Rows): Promise<Reading[]> {
  const found = await sql<Reading>`
    SELECT ${sql.join(readingColumns.map((column) => sql.ref(`readings.${column}`)))}
    FROM instruments
    JOIN stringSets ON stringSets.id = instruments.stringSetId
    JOIN json_each(stringSets.courses) AS course
    JOIN json_each(course.value, '$.strings') AS string
    JOIN readings ON readings.rowid = (
      SELECT rowid FROM readings AS heard
      WHERE heard.stringSetId = stringSets.id AND heard.course = course.key AND heard.string = string.key
      ORDER BY heard.at DESC LIMIT 1
    )
    WHERE instruments.removedAt IS NULL
    ORDER BY readings.stringSetId, readings.course, readings.string`.execute(rows);
  return found.rows;
}
