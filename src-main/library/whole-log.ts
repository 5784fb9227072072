import { type Kysely, sql } from 'kysely';
import type { LogOfFile } from '#shared/exchange/index.ts';
import type { Reading } from '#shared/log/index.ts';
import { lastRetunes, turnsOf } from './log.ts';
import { readingColumns, wrongRows } from './readings.ts';
import { wholeRemarks } from './remarks.ts';
import type { Tables } from './tables.ts';

type Rows = Kysely<Tables>;

/** How many readings the string sets have together. */
export async function countReadings(rows: Rows, stringSetIds: readonly string[]): Promise<number> {
  const found = await sql<{ count: number }>`
    SELECT COUNT(*) AS count FROM readings WHERE stringSetId IN (SELECT value FROM json_each(${JSON.stringify(stringSetIds)}))`.execute(
    rows,
  );
  return found.rows[0]?.count ?? 0;
}

/** The whole log of these instruments and their string sets, each kind of row oldest first. Ask `countReadings` first: it is held in memory. */
export async function wholeLog(rows: Rows, instrumentIds: readonly string[], stringSetIds: readonly string[]): Promise<LogOfFile> {
  const log: LogOfFile = { retunes: [], turns: [], readings: [], ...(await wholeRemarks(rows, instrumentIds, stringSetIds)) };
  for (const stringSetId of stringSetIds) {
    const retunes = await lastRetunes(rows, [stringSetId], Number.MAX_SAFE_INTEGER);
    const turns = await turnsOf(
      rows,
      retunes.map(({ id }) => id),
    );
    const readings = await rows
      .selectFrom('readings')
      .select(readingColumns)
      .where('stringSetId', '=', stringSetId)
      .orderBy('at')
      .orderBy('id')
      .execute();
    for (const retune of retunes) log.retunes.push(retune);
    for (const turn of turns) log.turns.push(turn);
    for (const reading of readings) log.readings.push(reading);
  }
  return log;
}

/** A reading with the number of its row, which grows as rows are added. */
export type NumberedReading = Reading & { readonly row: number };

/** At most `count` readings of these string sets whose row comes after `after` (0 = from the first), in the order in which they were added; none marked as wrong. */
export async function readingsPage(rows: Rows, stringSetIds: readonly string[], after: number, count: number): Promise<NumberedReading[]> {
  return rows
    .selectFrom('readings')
    .select(readingColumns)
    .select(sql<number>`rowid`.as('row'))
    .where('stringSetId', 'in', stringSetIds)
    .where(sql<number>`+rowid`, '>', after)
    .where(sql<number>`rowid`, 'not in', sql<number>`(${wrongRows})`)
    .orderBy(sql`rowid`)
    .limit(count)
    .execute();
}

/** When each of these string sets was last heard, in epoch milliseconds; one that never was has no entry. */
export async function lastHeardAt(rows: Rows, stringSetIds: readonly string[]): Promise<ReadonlyMap<string, number>> {
  const found = await rows
    .selectFrom('readings')
    .select(({ fn }) => ['stringSetId', fn.max('at').as('at')])
    .where('stringSetId', 'in', stringSetIds)
    .groupBy('stringSetId')
    .execute();
  return new Map(found.map(({ stringSetId, at }) => [stringSetId, at]));
}
