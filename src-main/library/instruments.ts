import type { Kysely } from 'kysely';
import { type Instrument, instrumentSchema, type StringSet, stringSetSchema } from '#shared/instruments/index.ts';
import { listOf } from './log.ts';
import type { Origin, Tables } from './tables.ts';

type Rows = Kysely<Tables>;

const instrumentOf = ({ removedAt: _removedAt, origin: _origin, ...row }: Tables['instruments']): Instrument =>
  instrumentSchema.parse({
    ...row,
    leftHanded: row.leftHanded === 1,
    upsideDown: row.upsideDown === 1,
    pegsHavePlay: row.pegsHavePlay === 1,
  });

const stringSetOf = ({ origin: _origin, ...row }: Tables['stringSets']): StringSet =>
  stringSetSchema.parse({ ...row, courses: JSON.parse(row.courses) });

/** The instruments that are not removed, by name. */
export async function listInstruments(rows: Rows): Promise<Instrument[]> {
  const found = await rows.selectFrom('instruments').selectAll().where('removedAt', 'is', null).orderBy('name').orderBy('id').execute();
  return found.map(instrumentOf);
}

/** Every instrument, those that are removed among them. */
export async function listEveryInstrument(
  rows: Rows,
): Promise<{ readonly instruments: Instrument[]; readonly removed: ReadonlySet<string> }> {
  const found = await rows.selectFrom('instruments').selectAll().orderBy('name').orderBy('id').execute();
  return { instruments: found.map(instrumentOf), removed: new Set(found.flatMap(({ id, removedAt }) => (removedAt === null ? [] : [id]))) };
}

/** Every string set, fitted or not, in the order in which they were fitted; those of one instrument where its id is given. */
export async function listStringSets(rows: Rows, instrumentId: string | null = null): Promise<StringSet[]> {
  const all = rows.selectFrom('stringSets').selectAll().orderBy('fittedAt').orderBy('id');
  const found = await (instrumentId === null ? all : all.where('instrumentId', '=', instrumentId)).execute();
  return found.map(stringSetOf);
}

/** The string sets that are fitted to the instruments not removed. */
export async function listFittedStringSets(rows: Rows): Promise<StringSet[]> {
  const found = await rows
    .selectFrom('stringSets')
    .innerJoin('instruments', 'instruments.stringSetId', 'stringSets.id')
    .selectAll('stringSets')
    .where('instruments.removedAt', 'is', null)
    .execute();
  return found.map(stringSetOf);
}

/** The string set of that id, or null. */
export async function findStringSet(rows: Rows, id: string): Promise<StringSet | null> {
  const found = await rows.selectFrom('stringSets').selectAll().where('id', '=', id).executeTakeFirst();
  return found === undefined ? null : stringSetOf(found);
}

/** The string sets of these ids; those that are not there are left out. */
export async function findStringSets(rows: Rows, ids: readonly string[]): Promise<StringSet[]> {
  const found = await rows.selectFrom('stringSets').selectAll().where('id', 'in', listOf(ids)).execute();
  return found.map(stringSetOf);
}

/** Writes an instrument, new or changed; a removed one is back with it. A changed one keeps its origin. */
export async function putInstrument(rows: Rows, instrument: Instrument, origin: Origin): Promise<void> {
  const { id, ...data } = {
    ...instrument,
    leftHanded: Number(instrument.leftHanded),
    upsideDown: Number(instrument.upsideDown),
    pegsHavePlay: Number(instrument.pegsHavePlay),
    removedAt: null,
  };
  await rows
    .insertInto('instruments')
    .values({ id, ...data, origin })
    .onConflict((conflict) => conflict.column('id').doUpdateSet(data))
    .execute();
}

/** Writes a string set, new or changed. It stays with its instrument. */
export async function putStringSet(rows: Rows, stringSet: StringSet, origin: Origin): Promise<void> {
  const { id, instrumentId, ...data } = { ...stringSet, courses: JSON.stringify(stringSet.courses) };
  await rows
    .insertInto('stringSets')
    .values({ id, instrumentId, ...data, origin })
    .onConflict((conflict) => conflict.column('id').doUpdateSet(data))
    .execute();
}

/** Takes an instrument away at `removedAt` or, with null, brings it back. Returns false where there is none of that id. */
export async function setInstrumentRemoved(rows: Rows, id: string, removedAt: number | null): Promise<boolean> {
  const done = await rows.updateTable('instruments').set({ removedAt }).where('id', '=', id).executeTakeFirst();
  return done.numUpdatedRows > 0n;
}

/** Notes which tuning an instrument stands in; null for one that is not in the library. */
export async function setInstrumentTuning(rows: Rows, id: string, tuningId: string | null): Promise<void> {
  await rows.updateTable('instruments').set({ tuningId }).where('id', '=', id).execute();
}
