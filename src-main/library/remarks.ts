import { type Kysely, sql } from 'kysely';
import type { LogOfFile } from '#shared/exchange/index.ts';
import { type InstrumentString, stringSchema } from '#shared/instruments/index.ts';
import {
  type ChangeCorrection,
  changeCorrectionSchema,
  type Correction,
  correctionSchema,
  type Note,
  noteSchema,
  type Reading,
  type Snooze,
  type StringChange,
  stringChangeSchema,
  type WarningSeen,
} from '#shared/log/index.ts';
import { listOf, portions } from './log.ts';
import { readingColumns, wrongChanges, wrongRows } from './readings.ts';
import type { Origin, Tables } from './tables.ts';

type Rows = Kysely<Tables>;

/** What the player says of strings and instruments, beside what was turned and heard. */
export type Remarks = {
  readonly notes: readonly Note[];
  readonly stringChanges: readonly StringChange[];
  readonly warningsSeen: readonly WarningSeen[];
  readonly snoozes: readonly Snooze[];
  readonly corrections: readonly Correction[];
  readonly changeCorrections: readonly ChangeCorrection[];
};

/**
 * Adds remarks of every kind. Those that are there already are left as they are. `replaced` is the string that each change took off, where that is
 * known.
 */
export async function addRemarks(
  rows: Rows,
  remarks: Remarks,
  origin: Origin,
  replaced: (change: StringChange) => InstrumentString | null = () => null,
): Promise<void> {
  const add = async (table: keyof Remarks, values: readonly object[]): Promise<void> => {
    for (const portion of portions(values))
      await rows
        .insertInto(table)
        .values(portion.map((row) => ({ ...row, origin })) as never)
        .onConflict((conflict) => conflict.column('id').doNothing())
        .execute();
  };
  await add('notes', remarks.notes);
  await add(
    'stringChanges',
    remarks.stringChanges.map((row) => {
      const off = replaced(row);
      return { ...row, wound: Number(row.wound), replaced: off === null ? null : JSON.stringify(off) };
    }),
  );
  await add('warningsSeen', remarks.warningsSeen);
  await add('snoozes', remarks.snoozes);
  await add(
    'corrections',
    remarks.corrections.map((row) => ({ ...row, isWrong: Number(row.isWrong) })),
  );
  await add(
    'changeCorrections',
    remarks.changeCorrections.map((row) => ({ ...row, isWrong: Number(row.isWrong) })),
  );
}

const changeOf = ({ origin: _origin, replaced: _replaced, ...row }: Tables['stringChanges']): StringChange =>
  stringChangeSchema.parse({ ...row, wound: row.wound === 1 });

/** Notes about instruments that stand, oldest first: not taken back, nor replaced by a later one. */
export async function standingNotes(rows: Rows, instrumentId: string): Promise<Note[]> {
  return rows
    .selectFrom('notes')
    .select(['id', 'instrumentId', 'at', 'words', 'replaces'])
    .where('instrumentId', '=', instrumentId)
    .where('words', '<>', '')
    .where('id', 'not in', (query) =>
      query.selectFrom('notes as later').select('later.replaces').where('later.replaces', 'is not', null).$castTo<string>(),
    )
    .orderBy('at')
    .orderBy('id')
    .execute();
}

const everyChange = (rows: Rows, stringSetIds: readonly string[]) =>
  rows.selectFrom('stringChanges').selectAll().where('stringSetId', 'in', listOf(stringSetIds)).orderBy('at').orderBy('id');

/** The changes of single strings in these sets that stand, oldest first: not those that were taken back. */
export async function changesOf(rows: Rows, stringSetIds: readonly string[]): Promise<StringChange[]> {
  const found = await everyChange(rows, stringSetIds)
    .where('id', 'not in', sql<string>`(${wrongChanges})`)
    .execute();
  return found.map(changeOf);
}

/** A string change, the string that it took off (null: not known), and whether it stands. */
export type LoggedChange = { readonly change: StringChange; readonly replaced: InstrumentString | null; readonly stands: boolean };

/** All changes of the string that one of them is about, oldest first, those taken back among them; empty where there is no such change. */
export async function changesOfSameString(rows: Rows, stringChangeId: string): Promise<LoggedChange[]> {
  const found = await sql<Tables['stringChanges'] & { stands: number }>`
    SELECT every.*, every.id NOT IN (${wrongChanges}) AS stands FROM stringChanges AS one
    JOIN stringChanges AS every ON every.stringSetId = one.stringSetId AND every.course = one.course AND every.string = one.string
    WHERE one.id = ${stringChangeId} ORDER BY every.at, every.id`.execute(rows);
  return found.rows.map(({ stands, ...row }) => ({
    change: changeOf(row),
    replaced: row.replaced === null ? null : stringSchema.parse(JSON.parse(row.replaced)),
    stands: stands === 1,
  }));
}

/** The warnings about strings of these sets that were seen, oldest first. */
export async function warningsSeenOf(rows: Rows, stringSetIds: readonly string[]): Promise<WarningSeen[]> {
  return rows
    .selectFrom('warningsSeen')
    .select(['id', 'stringSetId', 'at', 'course', 'string', 'kind'])
    .where('stringSetId', 'in', listOf(stringSetIds))
    .orderBy('at')
    .orderBy('id')
    .execute();
}

/** Until when the reminders of these sets are put off, by the latest row of each; one that never was has no entry. */
export async function snoozedUntil(rows: Rows, stringSetIds: readonly string[]): Promise<ReadonlyMap<string, number>> {
  const found = await snoozesOf(rows, stringSetIds);
  return new Map(found.map(({ stringSetId, until }) => [stringSetId, until]));
}

async function snoozesOf(rows: Rows, stringSetIds: readonly string[]): Promise<Snooze[]> {
  return rows
    .selectFrom('snoozes')
    .select(['id', 'stringSetId', 'at', 'until'])
    .where('stringSetId', 'in', listOf(stringSetIds))
    .orderBy('at')
    .orderBy('id')
    .execute();
}

/** The readings of a string set that are marked as wrong, oldest first. */
export async function wrongReadings(rows: Rows, stringSetId: string): Promise<Reading[]> {
  return rows
    .selectFrom('readings')
    .select(readingColumns)
    .where('stringSetId', '=', stringSetId)
    .where(sql<number>`rowid`, 'in', sql<number>`(${wrongRows})`)
    .orderBy('at')
    .orderBy('id')
    .execute();
}

/** Every remark about these instruments and their string sets, each kind oldest first. */
export async function wholeRemarks(
  rows: Rows,
  instrumentIds: readonly string[],
  stringSetIds: readonly string[],
): Promise<Pick<LogOfFile, keyof Remarks>> {
  const corrections = await sql<Tables['corrections']>`
    SELECT corrections.* FROM corrections JOIN readings ON readings.id = corrections.readingId
    WHERE readings.stringSetId IN ${listOf(stringSetIds)} ORDER BY corrections.at, corrections.id`.execute(rows);
  const changeCorrections = await sql<Tables['changeCorrections']>`
    SELECT changeCorrections.* FROM changeCorrections JOIN stringChanges ON stringChanges.id = changeCorrections.stringChangeId
    WHERE stringChanges.stringSetId IN ${listOf(stringSetIds)} ORDER BY changeCorrections.at, changeCorrections.id`.execute(rows);
  const notes = await rows
    .selectFrom('notes')
    .select(['id', 'instrumentId', 'at', 'words', 'replaces'])
    .where('instrumentId', 'in', listOf(instrumentIds))
    .orderBy('at')
    .orderBy('id')
    .execute();
  return {
    notes: notes.map((note) => noteSchema.parse(note)),
    stringChanges: (await everyChange(rows, stringSetIds).execute()).map(changeOf),
    warningsSeen: await warningsSeenOf(rows, stringSetIds),
    snoozes: await snoozesOf(rows, stringSetIds),
    corrections: corrections.rows.map(({ origin: _origin, ...row }) => correctionSchema.parse({ ...row, isWrong: row.isWrong === 1 })),
    changeCorrections: changeCorrections.rows.map(({ origin: _origin, ...row }) =>
      changeCorrectionSchema.parse({ ...row, isWrong: row.isWrong === 1 }),
    ),
  };
}
