import { mkdir, readdir, rename, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { backup } from 'node:sqlite';
import type { Database } from './database.ts';

const dailyKept = 7;
const weeklyKept = 4;
const dayMilliseconds = 86_400_000;
const namePattern = /^library-(\d{4}-\d{2}-\d{2})\.sqlite$/;

const two = (number: number): string => String(number).padStart(2, '0');

/** The day of a moment as the player's calendar has it: `2026-11-25`. */
export function calendarDay(epochMilliseconds: number): string {
  const date = new Date(epochMilliseconds);
  return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
}

/** Weeks run from Monday; 1 January 1970 was a Thursday. */
const week = (day: string): number => Math.floor((Date.parse(`${day}T00:00:00Z`) / dayMilliseconds + 3) / 7);

/**
 * Which backups stay, newest first: those of the last seven days that have one, then the last of each of the four weeks before.
 * `backupsToKeep(['2026-11-24', '2026-11-25'])` → `['2026-11-25', '2026-11-24']`.
 */
export function backupsToKeep(days: readonly string[]): readonly string[] {
  const newestFirst = days.toSorted().toReversed();
  const daily = newestFirst.slice(0, dailyKept);
  const weekly = new Map<number, string>();
  for (const day of newestFirst.slice(dailyKept)) if (!weekly.has(week(day))) weekly.set(week(day), day);
  return [...daily, ...[...weekly.values()].slice(0, weeklyKept)];
}

const backupFolder = (folder: string): string => join(folder, 'backups');

/** Where the backup of that day lies. */
export const backupPath = (folder: string, day: string): string => join(backupFolder(folder), `library-${day}.sqlite`);

/** The days that have a backup, newest first. */
export async function backupDays(folder: string): Promise<readonly string[]> {
  await mkdir(backupFolder(folder), { recursive: true });
  const names = await readdir(backupFolder(folder));
  const days = names.flatMap((name) => namePattern.exec(name)?.[1] ?? []);
  return days.toSorted().toReversed();
}

/** Writes the backup of `day`, in place of an earlier one of that day, and takes out those that the rotation lets go. */
export async function writeBackup({ file }: Database, folder: string, day: string): Promise<void> {
  await mkdir(backupFolder(folder), { recursive: true });
  const unfinished = `${backupPath(folder, day)}.part`;
  await rm(unfinished, { force: true });
  await backup(file, unfinished);
  await rename(unfinished, backupPath(folder, day));
  const days = await backupDays(folder);
  const kept = backupsToKeep(days);
  await Promise.all(days.filter((one) => !kept.includes(one)).map((one) => rm(backupPath(folder, one))));
}
