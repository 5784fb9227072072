import { type Kysely, sql } from 'kysely';
import type { Migration } from 'kysely/migration';

/** A migration that runs these statements in order. There is no way back: a library that a newer version wrote is refused instead. */
export const steps = (...statements: readonly string[]): Migration => ({
  async up(database: Kysely<unknown>): Promise<void> {
    for (const statement of statements) await sql.raw(statement).execute(database);
  },
});

/**
 * Triggers of a table of remarks. As in the rest of the log, rows are neither changed nor taken out, but for demo rows. What is said of a demo
 * instrument goes with it: its rows are taken out once the `owner` that they name is gone or the demo's.
 */
export const appendOnly = (table: string, owner: string, name: string): readonly string[] => [
  `CREATE TRIGGER ${table}AreNotChanged BEFORE UPDATE ON ${table} BEGIN SELECT RAISE(ABORT, 'rows of the log are not changed'); END`,
  `CREATE TRIGGER ${table}AreNotTakenOut BEFORE DELETE ON ${table}
    WHEN OLD.origin <> 'demo' AND (SELECT origin FROM ${owner} WHERE id = OLD.${name}) = 'player'
    BEGIN SELECT RAISE(ABORT, 'rows of the log are not taken out'); END`,
];
