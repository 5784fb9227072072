import type { Kysely } from 'kysely';
import { type Song, songSchema } from '#shared/sets/index.ts';
import type { Origin, Tables } from './tables.ts';

/** Every song, by title. */
export async function listSongs(rows: Kysely<Tables>): Promise<Song[]> {
  const found = await rows.selectFrom('songs').selectAll().orderBy('title').orderBy('id').execute();
  return found.map(({ origin: _origin, ...row }) => songSchema.parse(row));
}

/** Writes a song, new or changed. A changed one keeps its origin. */
export async function putSong(rows: Kysely<Tables>, song: Song, origin: Origin): Promise<void> {
  const { id, ...data } = song;
  await rows
    .insertInto('songs')
    .values({ id, ...data, origin })
    .onConflict((conflict) => conflict.column('id').doUpdateSet(data))
    .execute();
}

/** Takes a song out for good; one that is not there is no fault. */
export async function deleteSong(rows: Kysely<Tables>, id: string): Promise<void> {
  await rows.deleteFrom('songs').where('id', '=', id).execute();
}
