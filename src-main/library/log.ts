import { type Kysely, type RawBuilder, sql } from 'kysely';
import { type Reading, type Retune, retuneSchema, type Turn } from '#shared/log/index.ts';
import type { Origin, Tables } from './tables.ts';

type Rows = Kysely<Tables>;

/** Rows written by one statement; SQLite takes 32 766 values in one, and no row here has more than 14. */
const rowsAtOnce = 1000;

/** Rows in portions that one statement takes. */
export function* portions<Row>(rows: readonly Row[]): Generator<readonly Row[]> {
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
export const listOf = (ids: readonly string[]): RawBuilder<string> => sql<string>`(SELECT value FROM json_each(${JSON.stringify(ids)}))`;

/** The string set that each of these retunes was on; one that is not there has no entry. */
export async function setsOfRetunes(rows: Rows, retuneIds: readonly string[]): Promise<ReadonlyMap<string, string>> {
  const found = await rows.selectFrom('retunes').select(['id', 'stringSetId']).where('id', 'in', listOf(retuneIds)).execute();
  return new Map(found.map(({ id, stringSetId }) => [id, stringSetId]));
}

/** Which of these retunes have the id of one that the library has on other strings. */
export async function retunesOfOtherStrings(rows: Rows, retunes: readonly Retune[]): Promise<ReadonlySet<string>> {
  const here = await setsOfRetunes(
    rows,
    retunes.map(({ id }) => id),
  );
  return new Set(retunes.flatMap(({ id, stringSetId }) => (here.has(id) && here.get(id) !== stringSetId ? [id] : [])));
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

/** The last `count` retunes of each of these string sets, oldest first. */
export async function lastRetunes(rows: Rows, stringSetIds: readonly string[], count: number): Promise<Retune[]> {
  const found = await sql<Tables['retunes']>`
    SELECT retunes.* FROM json_each(${JSON.stringify(stringSetIds)}) AS one
    JOIN retunes ON retunes.rowid IN (
      SELECT rowid FROM retunes AS own WHERE own.stringSetId = one.value ORDER BY own.startedAt DESC, own.id DESC LIMIT ${count}
    )
    ORDER BY retunes.startedAt, retunes.id`.execute(rows);
  return withWantedHertz(rows, found.rows);
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

/** So many retunes back, a string that has not been heard since may have been turned. */
const retunesUnheard = 3;

/** The turns of the last few retunes of every string set that is fitted to an instrument not removed, with the set that they were made on. */
export async function lastTurnsOfFitted(rows: Rows): Promise<(Turn & { readonly stringSetId: string })[]> {
  const found = await sql<Turn & { readonly stringSetId: string }>`
    SELECT turns.id, turns.retuneId, turns.at, turns.course, turns.string, turns.cents, retunes.stringSetId FROM instruments
    JOIN retunes ON retunes.rowid IN (
      SELECT rowid FROM retunes AS own WHERE own.stringSetId = instruments.stringSetId
      ORDER BY own.startedAt DESC, own.id DESC LIMIT ${retunesUnheard}
    )
    JOIN turns ON turns.retuneId = retunes.id
    WHERE instruments.removedAt IS NULL`.execute(rows);
  return found.rows;
}

/** Whether any string of a set was ever retuned or heard. */
export async function hasHistory(rows: Rows, stringSetId: string): Promise<boolean> {
  const retune = await rows.selectFrom('retunes').select('id').where('stringSetId', '=', stringSetId).executeTakeFirst();
  const reading = await rows.selectFrom('readings').select('id').where('stringSetId', '=', stringSetId).executeTakeFirst();
  return retune !== undefined || reading !== undefined;
}
