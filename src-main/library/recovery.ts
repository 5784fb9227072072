import { copyFile, rename, rm } from 'node:fs/promises';
import { existsSync } from 'node:fs';
import { basename, join } from 'node:path';
import { backupDays, backupPath, calendarDay } from './backup.ts';
import { isWhole, openDatabase } from './database.ts';
import { standing } from './migrate.ts';

/** What SQLite keeps beside a file; they belong to it and move with it. */
const companions = ['', '-wal', '-shm'] as const;

export const libraryPath = (folder: string): string => join(folder, 'library.sqlite');

const keptLogPath = (folder: string): string => `${libraryPath(folder)}-wal.kept`;

/**
 * Copies what an unclean end left in the write-ahead log: SQLite throws away a log that it cannot use, and if the file turns out damaged,
 * someone may still want it. `forgetLog` takes the copy away again.
 */
export async function keepLog(folder: string): Promise<void> {
  const log = `${libraryPath(folder)}-wal`;
  if (existsSync(log)) await copyFile(log, keptLogPath(folder));
}

export const forgetLog = (folder: string): Promise<void> => rm(keptLogPath(folder), { force: true });

/**
 * Renames the library file to `library.<why>-<day>.sqlite`, with what SQLite keeps beside it; a number is added where that name is taken.
 * Returns the new name. The file must not be open.
 */
export async function setAside(folder: string, why: 'damaged' | 'replaced', now: number): Promise<string> {
  const name = (attempt: number): string => join(folder, `library.${why}-${calendarDay(now)}${attempt === 1 ? '' : `-${attempt}`}.sqlite`);
  let attempt = 1;
  while (existsSync(name(attempt))) attempt += 1;
  for (const companion of companions) {
    const from = libraryPath(folder) + companion;
    if (existsSync(from)) await rename(from, name(attempt) + companion);
  }
  if (existsSync(keptLogPath(folder))) await rename(keptLogPath(folder), `${name(attempt)}-wal`);
  return basename(name(attempt));
}

/** Whether a file is a whole library that this version can read. */
async function isSoundLibrary(path: string): Promise<boolean> {
  try {
    const database = openDatabase(path);
    try {
      return isWhole(database) && (await standing(database)) !== 'new';
    } finally {
      database.file.close();
    }
  } catch {
    // Not a database, or a newer version's: as a backup it is as good as absent.
    return false;
  }
}

/** The day of the newest backup that can be brought back, or null where there is none. */
export async function newestSoundBackup(folder: string): Promise<string | null> {
  for (const day of await backupDays(folder)) if (await isSoundLibrary(backupPath(folder, day))) return day;
  return null;
}

/** Puts the backup of `day` in the library's place; what was there is set aside. The library must not be open. */
export async function putBackupInPlace(folder: string, day: string, now: number): Promise<void> {
  await copyFile(backupPath(folder, day), `${libraryPath(folder)}.part`);
  if (existsSync(libraryPath(folder))) await setAside(folder, 'replaced', now);
  await rename(`${libraryPath(folder)}.part`, libraryPath(folder));
}
