import { DatabaseSync, type SQLInputValue } from 'node:sqlite';
import { Kysely, SqliteAdapter, SqliteDialect, type SqliteDatabase, type SqliteStatement } from 'kysely';
import type { Tables } from './tables.ts';

/** How long another program may hold the file before the library is refused as busy. */
const busyMilliseconds = 1000;

const values = (parameters: readonly unknown[]): SQLInputValue[] => parameters as SQLInputValue[];

/** The few members of Node's SQLite that Kysely's dialect asks for. */
const asKyselyDatabase = (database: DatabaseSync): SqliteDatabase => ({
  close: () => database.close(),
  prepare(sql): SqliteStatement {
    const statement = database.prepare(sql);
    return {
      reader: statement.columns().length > 0,
      all: (parameters) => statement.all(...values(parameters)),
      run: (parameters) => statement.run(...values(parameters)),
      iterate: (parameters) => statement.iterate(...values(parameters)),
    };
  },
});

/** Kysely runs migrations outside a transaction unless it is told that this database can change tables inside one; SQLite can (sqlite.org/lang_transaction.html). */
class Adapter extends SqliteAdapter {
  override get supportsTransactionalDdl(): boolean {
    return true;
  }
}

class Dialect extends SqliteDialect {
  override createAdapter(): SqliteAdapter {
    return new Adapter();
  }
}

/** The file as both of its users see it: SQLite itself for pragmas and backups, Kysely for typed queries. */
export type Database = { readonly file: DatabaseSync; readonly rows: Kysely<Tables> };

/**
 * Opens a library file for this process alone. What is acknowledged is on the disk (synchronous FULL), and a write-ahead log keeps a killed
 * process from leaving half a transaction. Throws SQLite's own error where the file is held by another process or is no database.
 */
export function openDatabase(path: string): Database {
  const file = new DatabaseSync(path, { timeout: busyMilliseconds, enableForeignKeyConstraints: true });
  try {
    // An exclusive lock is the operating system's, so it ends with the process, however that ends.
    file.exec('PRAGMA locking_mode = EXCLUSIVE; PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; BEGIN EXCLUSIVE; COMMIT');
  } catch (fault) {
    file.close();
    throw fault;
  }
  return { file, rows: new Kysely<Tables>({ dialect: new Dialect({ database: asKyselyDatabase(file) }) }) };
}

/** Whether SQLite finds the file whole: its pages, its indexes' order, its constraints (`PRAGMA quick_check`). */
export function isWhole({ file }: Database): boolean {
  const found = file.prepare('PRAGMA quick_check(1)').get();
  return found?.['quick_check'] === 'ok';
}
