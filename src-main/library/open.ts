import { mkdir } from 'node:fs/promises';
import { type Kysely, sql } from 'kysely';
import { HostFailure } from '#shared/contract/index.ts';
import { backupDays, calendarDay, writeBackup } from './backup.ts';
import { type Database, isWhole, openDatabase } from './database.ts';
import { asFailure, saysDamaged } from './faults.ts';
import { migrate, standing } from './migrate.ts';
import { forgetLog, keepLog, libraryPath, newestSoundBackup, putBackupInPlace, setAside } from './recovery.ts';
import type { Tables } from './tables.ts';

/** Something that the player must be told about how the library was opened. */
export type Notice = { readonly code: string; readonly sentence: string };

/** An open library: its rows, and the care of its file. */
export type Library = {
  readonly folder: string;
  /** Ask anew for each piece of work: bringing back a backup replaces it. */
  readonly rows: Kysely<Tables>;
  readonly notice: Notice | null;
  /** How many days have a backup. */
  countBackups(): Promise<number>;
  /** Writes today's backup unless there is one, or nothing to back up. */
  backUpIfDue(): Promise<void>;
  /** Puts the newest sound backup in the library's place and sets aside what was there. Throws `not-found` where there is no backup. */
  restoreBackup(): Promise<void>;
  /** Closes the file once a backup under way is done; a second time it does nothing. */
  close(): Promise<void>;
};

/** Opens the file; where it is damaged, the copy of its log is left for whoever sets it aside. */
async function openWhole(folder: string): Promise<Database | 'damaged'> {
  await keepLog(folder);
  const opened = tryToOpen(folder);
  if (opened !== 'damaged') await forgetLog(folder);
  return opened;
}

function tryToOpen(folder: string): Database | 'damaged' {
  let database: Database | null = null;
  try {
    database = openDatabase(libraryPath(folder));
    if (isWhole(database)) return database;
    database.file.close();
    return 'damaged';
  } catch (fault) {
    database?.file.close();
    if (saysDamaged(fault)) return 'damaged';
    throw asFailure(fault) ?? fault;
  }
}

async function noticeOfDamage(folder: string, now: number): Promise<Notice> {
  const aside = await setAside(folder, 'damaged', now);
  const day = await newestSoundBackup(folder);
  const offer = day === null ? 'There is no backup yet.' : `The backup of ${day} can be brought back.`;
  return { code: 'library-damaged', sentence: `The library file was damaged. It was set aside as ${aside}, and this one is new. ${offer}` };
}

/** Whether nothing was ever put in: such a library needs no backup, and may be new because the old file is gone. */
async function isEmpty({ rows }: Database): Promise<boolean> {
  const first = await sql`SELECT 1 FROM instruments UNION ALL SELECT 1 FROM tunings LIMIT 1`.execute(rows);
  return first.rows.length === 0;
}

async function noticeOfEmptiness(folder: string): Promise<Notice | null> {
  const day = await newestSoundBackup(folder);
  return day === null
    ? null
    : { code: 'library-empty', sentence: `The library is empty, but there is a backup of ${day}. It can be brought back.` };
}

/** Brings an open file up to this version; one from an older version is backed up first. */
async function bringUp(database: Database, folder: string, now: number): Promise<void> {
  const stands = await standing(database);
  if (stands === 'behind') await writeBackup(database, folder, calendarDay(now));
  if (stands !== 'current') await migrate(database);
}

/**
 * Opens the library in a folder, makes a new one where there is none, and brings an older one up to this version. A damaged file is set aside,
 * never overwritten. Throws `library-newer` or `library-busy`. `clock` gives epoch milliseconds.
 */
export async function openLibrary(folder: string, clock: () => number): Promise<Library> {
  await mkdir(folder, { recursive: true });
  let notice: Notice | null = null;

  async function open(): Promise<Database> {
    let opened = await openWhole(folder);
    if (opened === 'damaged') {
      notice = await noticeOfDamage(folder, clock());
      opened = await openWhole(folder);
    }
    if (opened === 'damaged') throw new HostFailure('library-damaged', 'A new library could not be written here. Check the disk.');
    try {
      await bringUp(opened, folder, clock());
      if (notice === null && (await isEmpty(opened))) notice = await noticeOfEmptiness(folder);
      return opened;
    } catch (fault) {
      opened.file.close();
      throw asFailure(fault) ?? fault;
    }
  }

  let database = await open();
  let careOfFile: Promise<unknown> = Promise.resolve();
  /** Work on the file as a whole waits for what is under way. */
  const oneAtATime = (work: () => Promise<void>): Promise<void> => {
    const done = careOfFile.then(work);
    careOfFile = done.catch(() => undefined);
    return done;
  };
  return {
    folder,
    get rows() {
      return database.rows;
    },
    get notice() {
      return notice;
    },
    countBackups: async () => (await backupDays(folder)).length,
    backUpIfDue: () =>
      oneAtATime(async () => {
        const today = calendarDay(clock());
        const days = await backupDays(folder);
        if (!days.includes(today) && !(await isEmpty(database))) await writeBackup(database, folder, today);
      }),
    restoreBackup: () =>
      oneAtATime(async () => {
        const day = await newestSoundBackup(folder);
        if (day === null) throw new HostFailure('not-found', 'There is no backup to bring back yet.');
        database.file.close();
        try {
          await putBackupInPlace(folder, day, clock());
          notice = null;
        } finally {
          database = await open();
        }
      }),
    close: () =>
      oneAtATime(() => {
        if (database.file.isOpen) database.file.close();
        return Promise.resolve();
      }),
  };
}
