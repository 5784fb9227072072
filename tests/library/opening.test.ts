import { readdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { describe, expect, test } from 'vitest';
import { listTunings, openLibrary, putTuning } from '../../src-main/library/index.ts';
import { evening, temporaryFolder, tuning } from '../support/host.ts';

const day = 86_400_000;

/** A folder with a library of one tuning and yesterday's backup of it, both closed. */
async function folderWithBackup(): Promise<string> {
  const folder = await temporaryFolder();
  const library = await openLibrary(folder, () => evening - day);
  await putTuning(library.rows, tuning, 'player');
  await library.backUpIfDue();
  await library.close();
  return folder;
}

/** Overwrites the file from a byte on, as a failing disk would; a negative one counts from the end. */
async function damage(path: string, from = 4096): Promise<void> {
  const bytes = await readFile(path);
  bytes.fill(0xa5, from < 0 ? bytes.length + from : from);
  await writeFile(path, bytes);
}

describe('a library that a newer Stillstring wrote', () => {
  test('is refused with a sentence and left as it is', async () => {
    const folder = await folderWithBackup();
    const path = join(folder, 'library.sqlite');
    const file = new DatabaseSync(path);
    file.exec(`INSERT INTO kysely_migration (name, timestamp) VALUES ('9999-later', '2030-01-01')`);
    file.close();
    const before = await readFile(path);
    await expect(openLibrary(folder, () => evening)).rejects.toMatchObject({
      code: 'library-newer',
      message: expect.stringContaining('newer Stillstring'),
    });
    expect(await readFile(path)).toEqual(before);
  });
});

describe('a library that another program holds', () => {
  test('is refused as busy, and can be opened when that program is done', async () => {
    const folder = await folderWithBackup();
    const first = await openLibrary(folder, () => evening);
    await expect(openLibrary(folder, () => evening)).rejects.toMatchObject({ code: 'library-busy' });
    await first.close();
    const second = await openLibrary(folder, () => evening);
    expect(await listTunings(second.rows)).toEqual([tuning]);
    await second.close();
  });
});

describe('a damaged library', () => {
  test('is set aside, a new one opened, the backup offered and brought back', async () => {
    const folder = await folderWithBackup();
    await damage(join(folder, 'library.sqlite'));

    const library = await openLibrary(folder, () => evening);
    expect(library.notice).toMatchObject({
      code: 'library-damaged',
      sentence: expect.stringContaining('The backup of 2026-11-24 can be brought back.'),
    });
    expect(await listTunings(library.rows)).toEqual([]);
    expect(await readdir(folder)).toContain('library.damaged-2026-11-25.sqlite');

    await library.restoreBackup();
    expect(await listTunings(library.rows)).toEqual([tuning]);
    expect(library.notice).toBeNull();
    await library.close();
  });

  test('that is no database at all is set aside too, without a backup to offer', async () => {
    const folder = await temporaryFolder();
    await writeFile(join(folder, 'library.sqlite'), 'these are not the pages you are looking for'.repeat(200));
    await writeFile(join(folder, 'library.sqlite-wal'), 'half a log');
    const library = await openLibrary(folder, () => evening);
    expect(library.notice?.sentence).toContain('There is no backup yet.');
    const names = await readdir(folder);
    expect(names).toContain('library.damaged-2026-11-25.sqlite');
    expect(names).toContain('library.damaged-2026-11-25.sqlite-wal');
    await expect(library.restoreBackup()).rejects.toMatchObject({ code: 'not-found' });
    await library.close();
  });

  test('is found out at the start even where the damage lies in a part that is seldom read', async () => {
    const folder = await folderWithBackup();
    const library = await openLibrary(folder, () => evening);
    for (let number = 0; number < 200; number += 1) await putTuning(library.rows, { ...tuning, id: `tuning-${number}` }, 'player');
    await library.close();
    await damage(join(folder, 'library.sqlite'), -4096);
    const reopened = await openLibrary(folder, () => evening);
    expect(reopened.notice).toMatchObject({ code: 'library-damaged' });
    await reopened.close();
  });

  test('is set aside a second time on the same day under another name', async () => {
    const folder = await folderWithBackup();
    for (const _ of [1, 2]) {
      await damage(join(folder, 'library.sqlite'));
      await (await openLibrary(folder, () => evening)).close();
    }
    const names = await readdir(folder);
    expect(names.filter((name) => name.startsWith('library.damaged') && name.endsWith('.sqlite')).toSorted()).toEqual([
      'library.damaged-2026-11-25-2.sqlite',
      'library.damaged-2026-11-25.sqlite',
    ]);
  });

  test('offers the backup again at the next start while the new one is still empty', async () => {
    const folder = await folderWithBackup();
    await damage(join(folder, 'library.sqlite'));
    const first = await openLibrary(folder, () => evening);
    await first.backUpIfDue();
    await first.close();
    const second = await openLibrary(folder, () => evening + day);
    expect(second.notice).toMatchObject({ code: 'library-empty', sentence: expect.stringContaining('2026-11-24') });
    await second.restoreBackup();
    expect(await listTunings(second.rows)).toEqual([tuning]);
    await second.close();
  });

  test('passes over a backup that is damaged as well', async () => {
    const folder = await folderWithBackup();
    const library = await openLibrary(folder, () => evening);
    await putTuning(library.rows, { ...tuning, id: 'another' }, 'player');
    await library.backUpIfDue();
    await library.close();
    await damage(join(folder, 'library.sqlite'));
    await damage(join(folder, 'backups', 'library-2026-11-25.sqlite'));
    const reopened = await openLibrary(folder, () => evening);
    await reopened.restoreBackup();
    expect(await listTunings(reopened.rows)).toEqual([tuning]);
    await reopened.close();
  });
});
