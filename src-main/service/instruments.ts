import { type FittedSet, HostFailure } from '#shared/contract/index.ts';
import type { Course, Instrument, StringSet } from '#shared/instruments/index.ts';
import {
  findStringSet,
  hasHistory,
  lastHeardAt,
  type Library,
  listStringSets,
  putInstrument,
  putStringSet,
  setInstrumentRemoved,
} from '../library/index.ts';

const stringsPerCourse = (courses: readonly Course[]): string => courses.map(({ strings }) => strings.length).join(' ');

/** A set with a history keeps its courses and strings: the log names them by their place. */
async function checkStringSet(library: Library, next: StringSet): Promise<void> {
  const before = await findStringSet(library.rows, next.id);
  if (before === null) return;
  if (before.instrumentId !== next.instrumentId) throw new HostFailure('bad-input', 'These strings belong to another instrument.');
  if (stringsPerCourse(before.courses) !== stringsPerCourse(next.courses) && (await hasHistory(library.rows, next.id)))
    throw new HostFailure('in-use', `“${before.name}” has a history with the courses it has. Fit a new string set instead.`);
}

/** Writes an instrument with the string set fitted to it; sets fitted before stay, with their histories. Throws `bad-input`, `in-use`, `not-found`. */
export async function saveInstrument(
  library: Library,
  { instrument, stringSet }: { readonly instrument: Instrument; readonly stringSet: StringSet },
): Promise<Instrument> {
  if (instrument.stringSetId !== stringSet.id || stringSet.instrumentId !== instrument.id)
    throw new HostFailure('bad-input', 'The string set is not the one fitted to this instrument.');
  await checkStringSet(library, stringSet);
  await library.rows.transaction().execute(async (rows) => {
    await putInstrument(rows, instrument, 'player');
    await putStringSet(rows, stringSet, 'player');
  });
  return instrument;
}

/** Takes an instrument away at `now`; its history stays, and `restoreInstrument` brings it back. Throws `not-found`. */
export async function removeInstrument(library: Library, { id }: { readonly id: string }, now: number): Promise<void> {
  if (!(await setInstrumentRemoved(library.rows, id, now))) throw new HostFailure('not-found');
}

/** Brings a removed instrument back. Throws `not-found`. */
export async function restoreInstrument(library: Library, { id }: { readonly id: string }): Promise<void> {
  if (!(await setInstrumentRemoved(library.rows, id, null))) throw new HostFailure('not-found');
}

/** Every string set that is or was fitted to an instrument, the newest first. Saving the instrument with one of them puts it on again. */
export async function readStringSets(library: Library, { id }: { readonly id: string }): Promise<FittedSet[]> {
  const sets = await listStringSets(library.rows, id);
  const heard = await lastHeardAt(
    library.rows,
    sets.map((set) => set.id),
  );
  return sets.toReversed().map((stringSet) => ({ stringSet, lastHeardAt: heard.get(stringSet.id) ?? null }));
}
