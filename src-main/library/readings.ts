import { type Kysely, type RawBuilder, sql } from 'kysely';
import type { Reading } from '#shared/log/index.ts';
import type { Tables } from './tables.ts';

type Rows = Kysely<Tables>;

// Readings are looked up string by string: the index leads from a string of a set straight to a moment, however many readings there are.

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

const columns = sql.join(readingColumns.map((column) => sql.ref(`readings.${column}`)));

/** The row numbers of readings that are marked as wrong, by the last correction of each. SQLite takes the other columns from the row of a lone MAX(). */
export const wrongRows: RawBuilder<number> = sql<number>`
  SELECT marked.rowid FROM (SELECT readingId, isWrong, MAX(at) FROM corrections GROUP BY readingId) AS latest
  JOIN readings AS marked ON marked.id = latest.readingId WHERE latest.isWrong = 1`;

/** The string changes that were taken back, by the last correction of each. */
export const wrongChanges: RawBuilder<string> = sql<string>`
  SELECT stringChangeId FROM (SELECT stringChangeId, isWrong, MAX(at) FROM changeCorrections GROUP BY stringChangeId) AS latest
  WHERE latest.isWrong = 1`;

/** The strings of the sets in scope as `course.key` and `string.key`. A CROSS JOIN keeps SQLite from looking through all readings first (sqlite.org/optoverview.html, § 7). */
const everyString = sql`json_each(stringSets.courses) AS course CROSS JOIN json_each(course.value, '$.strings') AS string`;

/** What is heard of that string as it is: neither marked as wrong nor from before it was changed by itself. */
const countsHere = sql`heard.stringSetId = stringSets.id AND heard.course = course.key AND heard.string = string.key
  AND heard.at >= COALESCE((
    SELECT MAX(at) FROM stringChanges AS changed
    WHERE changed.stringSetId = stringSets.id AND changed.course = course.key AND changed.string = string.key
      AND changed.id NOT IN (${wrongChanges})), 0)
  AND heard.rowid NOT IN (${wrongRows})`;

/** Where the readings of a string set are to begin, in epoch milliseconds. */
export type Span = { readonly stringSetId: string; readonly since: number };

/** What counts of these string sets, at most `most` readings of each string, the latest ones; oldest first. */
export async function readingsOf(rows: Rows, spans: readonly Span[], most: number): Promise<Reading[]> {
  const found = await sql<Reading>`
    SELECT ${columns} FROM json_each(${JSON.stringify(spans)}) AS span
    JOIN stringSets ON stringSets.id = span.value ->> 'stringSetId'
    JOIN ${everyString}
    JOIN readings ON readings.rowid IN (
      SELECT rowid FROM readings AS heard WHERE ${countsHere} AND heard.at >= span.value ->> 'since' ORDER BY heard.at DESC LIMIT ${most}
    )
    ORDER BY readings.at, readings.id`.execute(rows);
  return found.rows;
}

/** The last reading that counts of every string that is fitted to an instrument not removed. */
export async function lastReadingsOfFitted(rows: Rows): Promise<Reading[]> {
  const found = await sql<Reading>`
    SELECT ${columns} FROM instruments
    JOIN stringSets ON stringSets.id = instruments.stringSetId
    JOIN ${everyString}
    JOIN readings ON readings.rowid = (SELECT rowid FROM readings AS heard WHERE ${countsHere} ORDER BY heard.at DESC LIMIT 1)
    WHERE instruments.removedAt IS NULL
    ORDER BY readings.stringSetId, readings.course, readings.string`.execute(rows);
  return found.rows;
}

/** What was heard of one string in one stretch of time. Cents are from what was wanted when it was heard. */
export type Bucket = {
  readonly course: number;
  readonly string: number;
  /** The stretch's place, from 0. */
  readonly bucket: number;
  readonly count: number;
  readonly meanCents: number;
  readonly lowestCents: number;
  readonly highestCents: number;
  readonly lastAt: number;
  readonly lastCents: number;
  readonly lastSigmaCents: number;
};

type Stretches = { readonly stringSetId: string; readonly from: number; readonly until: number; readonly bucketMilliseconds: number };

/** The statement that sums up the readings of a string set; what is marked as wrong does not count. Strings changed by themselves are told of as one. */
export const summary = ({ stringSetId, from, until, bucketMilliseconds }: Stretches): RawBuilder<Bucket> => sql<Bucket>`
  SELECT summed.*, latest.deviationCents AS lastCents, latest.sigmaCents AS lastSigmaCents
  FROM (
    SELECT heard.course, heard.string, CAST((heard.at - ${from}) / ${bucketMilliseconds} AS INTEGER) AS bucket, COUNT(*) AS count,
      AVG(heard.deviationCents) AS meanCents, MIN(heard.deviationCents) AS lowestCents, MAX(heard.deviationCents) AS highestCents,
      MAX(heard.at) AS lastAt
    FROM stringSets CROSS JOIN ${everyString}
    CROSS JOIN readings AS heard ON heard.stringSetId = stringSets.id AND heard.course = course.key AND heard.string = string.key
      AND heard.at >= ${from} AND heard.at < ${until} AND heard.rowid NOT IN (${wrongRows})
    WHERE stringSets.id = ${stringSetId}
    GROUP BY heard.course, heard.string, bucket
  ) AS summed
  JOIN readings AS latest ON latest.rowid = (
    SELECT rowid FROM readings AS one
    WHERE one.stringSetId = ${stringSetId} AND one.course = summed.course AND one.string = summed.string AND one.at = summed.lastAt
      AND one.rowid NOT IN (${wrongRows})
    LIMIT 1
  )
  ORDER BY summed.course, summed.string, summed.bucket`;

/** What was heard of each string of a set, summed up in stretches of `bucketMilliseconds` from `from` until `until`; stretches without a reading are left out. */
export async function readingsSummedUp(rows: Rows, stretches: Stretches): Promise<Bucket[]> {
  return (await summary(stretches).execute(rows)).rows;
}
