import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { sql } from 'kysely';
import { changesOf, listInstruments, readSettings } from '../../src-main/library/index.ts';
import { describe, expect, onTestFinished, test } from 'vitest';
import { type Database, openDatabase } from '../../src-main/library/database.ts';
import { migrate, standing } from '../../src-main/library/migrate.ts';
import { migrations } from '../../src-main/library/migrations/index.ts';
import { temporaryFolder } from '../support/host.ts';

const names = Object.keys(migrations);

async function newDatabase(): Promise<Database> {
  const database = openDatabase(join(await temporaryFolder(), 'library.sqlite'));
  onTestFinished(() => database.file.close());
  return database;
}

/** Every table, index and trigger as SQLite writes it down. */
async function schemaOf({ rows }: Database): Promise<readonly object[]> {
  const found = await sql<object>`SELECT type, name, tbl_name, sql FROM sqlite_schema ORDER BY type, name`.execute(rows);
  return found.rows.map((row) => ({ ...row }));
}

describe('the migrations', () => {
  test('are numbered without gaps, and each stands in a file of its name', async () => {
    expect(names.map((name) => name.slice(0, 5))).toEqual(names.map((_, index) => `${String(index + 1).padStart(4, '0')}-`));
    const files = await readdir(join(import.meta.dirname, '..', '..', 'src-main', 'library', 'migrations'));
    expect(files.filter((file) => /^\d/.test(file)).toSorted()).toEqual(names.map((name) => `${name}.ts`));
  });

  test('run one by one leave the same library as all at once', async () => {
    const atOnce = await newDatabase();
    await migrate(atOnce);
    const oneByOne = await newDatabase();
    for (const [index, name] of names.entries()) {
      expect(await standing(oneByOne)).toBe(index === 0 ? 'new' : 'behind');
      await migrate(oneByOne, name);
    }
    expect(await standing(oneByOne)).toBe('current');
    expect(await schemaOf(oneByOne)).toEqual(await schemaOf(atOnce));
  });

  test('are run only once', async () => {
    const database = await newDatabase();
    await migrate(database);
    const before = await schemaOf(database);
    await migrate(database);
    expect(await schemaOf(database)).toEqual(before);
  });

  test('keep what an older library has: an instrument, settings and a string change from before it was asked how strings are held', async () => {
    const database = await newDatabase();
    await migrate(database, '0003-remarks');
    const { file } = database;
    file.exec(`
      BEGIN;
      INSERT INTO instruments VALUES ('wren', 'Wren', 'tenor', 'tenor', 432, 18, 0, 1, 'Pickup', 1, 'set', NULL, NULL, 'player');
      INSERT INTO stringSets VALUES ('set', 'wren', 'First', 5, '[]', 'player');
      INSERT INTO settings VALUES (1, 442, 1.5, 'dark', 0, 'Pickup');
      INSERT INTO stringChanges VALUES ('change', 'set', 7, 2, 0, 'gut', 1, 0.7, '', 'player');
      COMMIT`);
    await migrate(database);
    const { rows } = database;
    expect(await listInstruments(rows)).toMatchObject([
      { id: 'wren', upsideDown: true, inputLabel: 'Pickup', pegs: null, bridge: null, pegsHavePlay: false },
    ]);
    expect(await readSettings(rows)).toEqual({
      referenceHertz: 442,
      toleranceCents: 1.5,
      theme: 'dark',
      soundCues: false,
      microphoneLabel: 'Pickup',
      noteLanguage: 'english',
      speaks: false,
    });
    expect(await changesOf(rows, ['set'])).toMatchObject([{ id: 'change', material: 'gut', wound: true }]);
  });

  test('leave no trace where one fails', async () => {
    const database = await newDatabase();
    database.file.exec('CREATE TABLE readings (id TEXT)');
    const before = await schemaOf(database);
    await expect(migrate(database)).rejects.toThrow(/already exists/);
    const after = await schemaOf(database);
    expect(after.filter((row) => !('name' in row && String(row.name).includes('kysely_')))).toEqual(before);
  });
});
