import type { Kysely } from 'kysely';
import { type Settings, settingsSchema } from '#shared/contract/index.ts';
import type { Tables } from './tables.ts';

/** There is one row of settings. */
const id = 1;

/** The player's settings, or null where nothing was ever set. */
export async function readSettings(rows: Kysely<Tables>): Promise<Settings | null> {
  const found = await rows.selectFrom('settings').selectAll().executeTakeFirst();
  if (found === undefined) return null;
  const { id: _id, ...row } = found;
  return settingsSchema.parse({ ...row, soundCues: row.soundCues === 1, speaks: row.speaks === 1 });
}

/** Writes the player's settings. */
export async function putSettings(rows: Kysely<Tables>, settings: Settings): Promise<void> {
  const row = { ...settings, soundCues: Number(settings.soundCues), speaks: Number(settings.speaks) };
  await rows
    .insertInto('settings')
    .values({ id, ...row })
    .onConflict((conflict) => conflict.column('id').doUpdateSet(row))
    .execute();
}
