import type { Kysely } from 'kysely';
import { type Tuning, tuningSchema } from '#shared/tunings/index.ts';
import { listOf } from './log.ts';
import type { Origin, Tables } from './tables.ts';

type Rows = Kysely<Tables>;

const tuningOf = ({ removedAt: _removedAt, origin: _origin, ...row }: Tables['tunings']): Tuning =>
  tuningSchema.parse({
    ...row,
    courses: JSON.parse(row.courses),
    home: JSON.parse(row.home),
    tags: JSON.parse(row.tags),
    favourite: row.favourite === 1,
  });

/** The tunings that are not removed, by name. */
export async function listTunings(rows: Rows): Promise<Tuning[]> {
  const found = await rows.selectFrom('tunings').selectAll().where('removedAt', 'is', null).orderBy('name').orderBy('id').execute();
  return found.map(tuningOf);
}

/** The tuning that the instrument with each of these string sets on it is in; one that is in its home tuning has no entry. */
export async function tuningsOfSets(rows: Rows, stringSetIds: readonly string[]): Promise<ReadonlyMap<string, Tuning>> {
  const found = await rows
    .selectFrom('instruments')
    .innerJoin('tunings', 'tunings.id', 'instruments.tuningId')
    .selectAll('tunings')
    .select('instruments.stringSetId')
    .where('instruments.stringSetId', 'in', listOf(stringSetIds))
    .execute();
  return new Map(found.map(({ stringSetId, ...row }) => [stringSetId, tuningOf(row)]));
}

/** Every tuning, those that are removed among them. */
export async function listEveryTuning(rows: Rows): Promise<{ readonly tunings: Tuning[]; readonly removed: ReadonlySet<string> }> {
  const found = await rows.selectFrom('tunings').selectAll().orderBy('name').orderBy('id').execute();
  return { tunings: found.map(tuningOf), removed: new Set(found.flatMap(({ id, removedAt }) => (removedAt === null ? [] : [id]))) };
}

/** Writes a tuning, new or changed; a removed one is back with it. A changed one keeps its origin. */
export async function putTuning(rows: Rows, tuning: Tuning, origin: Origin): Promise<void> {
  const { id, ...data } = {
    ...tuning,
    courses: JSON.stringify(tuning.courses),
    home: JSON.stringify(tuning.home),
    tags: JSON.stringify(tuning.tags),
    favourite: Number(tuning.favourite),
    removedAt: null,
  };
  await rows
    .insertInto('tunings')
    .values({ id, ...data, origin })
    .onConflict((conflict) => conflict.column('id').doUpdateSet(data))
    .execute();
}

/** Takes a tuning away at `removedAt` or, with null, brings it back. Returns false where there is none of that id. */
export async function setTuningRemoved(rows: Rows, id: string, removedAt: number | null): Promise<boolean> {
  const done = await rows.updateTable('tunings').set({ removedAt }).where('id', '=', id).executeTakeFirst();
  return done.numUpdatedRows > 0n;
}

/** What still needs a tuning: an instrument that stands in it, else a song played in it; by name, or null where nothing does. */
export async function needOfTuning(
  rows: Rows,
  id: string,
): Promise<{ readonly kind: 'instrument' | 'song'; readonly name: string } | null> {
  const instrument = await rows
    .selectFrom('instruments')
    .select('name')
    .where('tuningId', '=', id)
    .where('removedAt', 'is', null)
    .orderBy('name')
    .executeTakeFirst();
  if (instrument !== undefined) return { kind: 'instrument', name: instrument.name };
  const song = await rows.selectFrom('songs').select('title').where('tuningId', '=', id).orderBy('title').executeTakeFirst();
  return song === undefined ? null : { kind: 'song', name: song.title };
}
