import { sql } from 'kysely';
import { describe, expect, onTestFinished, test } from 'vitest';
import {
  addReadings,
  addRetune,
  addTurns,
  type Library,
  openLibrary,
  putInstrument,
  putStringSet,
  putTuning,
} from '../../src-main/library/index.ts';
import { evening, instrument, reading, retune, stringSet, temporaryFolder, tuning, turn } from '../support/host.ts';

async function libraryWithWren(): Promise<Library> {
  const library = await openLibrary(await temporaryFolder(), () => evening);
  onTestFinished(() => library.close());
  await library.rows.transaction().execute(async (rows) => {
    await putTuning(rows, tuning, 'player');
    await putInstrument(rows, instrument, 'player');
    await putStringSet(rows, stringSet, 'player');
    await addRetune(rows, retune, 'player');
    await addTurns(rows, [turn], 'player');
    await addReadings(rows, [reading], 'player');
  });
  return library;
}

const run = (library: Library, statement: string): Promise<unknown> => sql.raw(statement).execute(library.rows);

describe('the tables refuse', () => {
  test.each([
    ['words where a frequency belongs', `UPDATE instruments SET scaleLengthMillimetres = 'long'`, /cannot store TEXT value in REAL/],
    ['half a fret', `UPDATE instruments SET frets = 18.5`, /cannot store REAL value in INTEGER/],
    ['a third kind of yes or no', `UPDATE tunings SET favourite = 2`, /CHECK constraint failed/],
    ['courses that are no list', `UPDATE stringSets SET courses = 'G C E A'`, /CHECK constraint failed/],
    ['a tuning that is not there', `UPDATE instruments SET tuningId = 'lost'`, /FOREIGN KEY constraint failed/],
    ['strings that are not there', `UPDATE instruments SET stringSetId = 'lost'`, /FOREIGN KEY constraint failed/],
    ['to lose a tuning that the log speaks of', `DELETE FROM tunings`, /FOREIGN KEY constraint failed/],
    ['a second row of settings', `INSERT INTO settings VALUES (2, 440, 3, 'dark', 1, NULL, 'english', 0)`, /CHECK constraint failed/],
    ['to change a reading', `UPDATE readings SET deviationCents = 0`, /rows of the log are not changed/],
    ['to take out a reading', `DELETE FROM readings`, /rows of the log are not taken out/],
    ['to change a turn', `UPDATE turns SET cents = 0`, /rows of the log are not changed/],
    ['to take out a turn', `DELETE FROM turns`, /rows of the log are not taken out/],
    ['a course beyond the twelfth', `INSERT INTO turns VALUES ('t', 'retune-1', 1, 12, 0, 1.5, 'player')`, /CHECK constraint failed/],
  ])('%s', async (_what, statement, refusal) => {
    const library = await libraryWithWren();
    await expect(run(library, statement)).rejects.toThrow(refusal);
  });

  test('no column that is not named', async () => {
    const library = await libraryWithWren();
    const tables = await sql<{ name: string; strict: number }>`
      SELECT name, strict FROM pragma_table_list WHERE schema = 'main' AND name NOT LIKE 'sqlite_%' AND name NOT LIKE 'kysely_%'`.execute(
      library.rows,
    );
    expect(tables.rows.length).toBeGreaterThan(0);
    expect(tables.rows.filter(({ strict }) => strict !== 1)).toEqual([]);
  });
});

describe('what is acknowledged is on the disk', () => {
  test('because the log is written through at each commit', async () => {
    const library = await libraryWithWren();
    const setting = async (pragma: string): Promise<unknown> =>
      Object.values((await sql.raw<object>(`PRAGMA ${pragma}`).execute(library.rows)).rows[0]!)[0];
    // SQLite's numbers: synchronous 2 is FULL.
    expect([await setting('synchronous'), await setting('journal_mode'), await setting('foreign_keys')]).toEqual([2, 'wal', 1]);
  });
});
