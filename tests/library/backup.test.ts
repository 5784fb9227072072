import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { assert, integer, property, uniqueArray } from 'fast-check';
import { describe, expect, test } from 'vitest';
import { backupsToKeep } from '../../src-main/library/backup.ts';
import { openLibrary, putTuning } from '../../src-main/library/index.ts';
import { evening, temporaryFolder, tuning } from '../support/host.ts';

const dayMilliseconds = 86_400_000;
const dayBefore = (days: number): string => new Date(evening - days * dayMilliseconds).toISOString().slice(0, 10);

describe('the rotation of backups', () => {
  test('keeps the last seven days and the last day of each of the four weeks before', () => {
    const sixtyDays = Array.from({ length: 60 }, (_, days) => dayBefore(days));
    // 25 November 2026 is a Wednesday; the seven days reach back to Thursday the 19th, so the week before that ends on Wednesday the 18th.
    const daily = ['2026-11-25', '2026-11-24', '2026-11-23', '2026-11-22', '2026-11-21', '2026-11-20', '2026-11-19'];
    const weekly = ['2026-11-18', '2026-11-15', '2026-11-08', '2026-11-01'];
    expect(backupsToKeep(sixtyDays)).toEqual([...daily, ...weekly]);
  });

  test('never lets the newest go, keeps no more than eleven, and keeps what it kept', () => {
    const day = integer({ min: 0, max: 400 }).map(dayBefore);
    assert(
      property(uniqueArray(day, { minLength: 1, maxLength: 80 }), (days) => {
        const kept = backupsToKeep(days);
        expect(kept[0]).toBe(days.toSorted().at(-1));
        expect(kept.length).toBeLessThanOrEqual(11);
        expect(backupsToKeep(kept)).toEqual(kept);
      }),
      { seed: 20261125, numRuns: 300 },
    );
  });
});

describe('a library in daily use', () => {
  test('has one backup a day, and old ones go', async () => {
    const folder = await temporaryFolder();
    let now = evening - 20 * dayMilliseconds;
    const library = await openLibrary(folder, () => now);
    await putTuning(library.rows, tuning, 'player');
    for (let day = 0; day <= 20; day += 1) {
      await library.backUpIfDue();
      await library.backUpIfDue();
      now += dayMilliseconds;
    }
    await library.close();
    const names = await readdir(join(folder, 'backups'));
    expect(names.toSorted().toReversed()).toEqual(
      ['25', '24', '23', '22', '21', '20', '19', '18', '15', '08'].map((date) => `library-2026-11-${date}.sqlite`),
    );
  });

  test('is not backed up while it is empty: that would push out backups that are not', async () => {
    const folder = await temporaryFolder();
    const library = await openLibrary(folder, () => evening);
    await library.backUpIfDue();
    expect(await library.countBackups()).toBe(0);
    await library.close();
  });
});
