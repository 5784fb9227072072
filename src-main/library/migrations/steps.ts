import { type Kysely, sql } from 'kysely';
import type { Migration } from 'kysely/migration';

/** A migration that runs these statements in order. There is no way back: a library that a newer version wrote is refused instead. */
export const steps = (...statements: readonly string[]): Migration => ({
  async up(database: Kysely<unknown>): Promise<void> {
    for (const statement of statements) await sql.raw(statement).execute(database);
  },
});
