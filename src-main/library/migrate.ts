import { sql } from 'kysely';
import { Migrator } from 'kysely/migration';
import { HostFailure } from '#shared/contract/index.ts';
import type { Database } from './database.ts';
import { migrations } from './migrations/index.ts';

/** The names of the migrations that a file has been through, oldest first; none for a new file. */
async function migrationsDone({ rows }: Database): Promise<readonly string[]> {
  const tables = await sql<{ name: string }>`SELECT name FROM sqlite_schema WHERE name = 'kysely_migration'`.execute(rows);
  if (tables.rows.length === 0) return [];
  const done = await sql<{ name: string }>`SELECT name FROM kysely_migration ORDER BY name`.execute(rows);
  return done.rows.map(({ name }) => name);
}

/** How a file stands to this version: new, behind it, just right. Throws `library-newer` for a file that a newer version wrote. */
export async function standing(database: Database): Promise<'new' | 'behind' | 'current'> {
  const done = await migrationsDone(database);
  if (done.some((name) => !(name in migrations))) throw new HostFailure('library-newer');
  if (done.length === 0) return 'new';
  return done.length < Object.keys(migrations).length ? 'behind' : 'current';
}

/** Brings a file up to `target` (the newest where not given). Throws what the first failing migration threw; that one leaves no trace. */
export async function migrate({ rows }: Database, target?: string): Promise<void> {
  const migrator = new Migrator({ db: rows, provider: { getMigrations: () => Promise.resolve(migrations) } });
  const { error } = target === undefined ? await migrator.migrateToLatest() : await migrator.migrateTo(target);
  if (error !== undefined) throw error;
}
