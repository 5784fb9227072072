import { HostFailure, type Output } from '#shared/contract/index.ts';
import type { Course } from '#shared/instruments/index.ts';
import type { StringChange } from '#shared/log/index.ts';
import {
  addRemarks,
  changesOf,
  findStringSet,
  type Library,
  listEveryInstrument,
  listStringSets,
  putStringSet,
  snoozedUntil,
  standingNotes,
  warningsSeenOf,
} from '../library/index.ts';
import { noSuchString } from './check-strings.ts';

const noRemarks = { notes: [], stringChanges: [], warningsSeen: [], snoozes: [], corrections: [] };

/** What is said of an instrument. Throws `not-found`. */
export async function readRemarks({ rows }: Library, { id }: { readonly id: string }): Promise<Output<'log.remarks'>> {
  const { instruments } = await listEveryInstrument(rows);
  const fitted = instruments.find((one) => one.id === id)?.stringSetId;
  if (fitted === undefined) throw new HostFailure('not-found');
  const sets = (await listStringSets(rows, id)).map((set) => set.id);
  return {
    notes: await standingNotes(rows, id),
    changes: await changesOf(rows, sets),
    warningsSeen: await warningsSeenOf(rows, [fitted]),
    snoozedUntil: (await snoozedUntil(rows, [fitted])).get(fitted) ?? null,
  };
}

/**
 * Writes down that one string was changed by itself, and what is on there now. The set stays the same, with the histories of its other strings.
 * Told twice, it is written once. Throws `not-found`, `bad-input`.
 */
export async function changeString(library: Library, change: StringChange): Promise<void> {
  await library.rows.transaction().execute(async (rows) => {
    const set = await findStringSet(rows, change.stringSetId);
    if (set === null) throw new HostFailure('not-found');
    if (set.courses[change.course]?.strings[change.string] === undefined) throw noSuchString(set.name);
    const before = await changesOf(rows, [set.id]);
    await addRemarks(rows, { ...noRemarks, stringChanges: [change] }, 'player');
    const isLatest = !before.some(
      ({ id, course, string, at }) => id === change.id || (isSame({ course, string }, change) && at > change.at),
    );
    if (isLatest) await putStringSet(rows, { ...set, courses: set.courses.map((on, course) => withChange(on, course, change)) }, 'player');
  });
}

type Place = { readonly course: number; readonly string: number };
const isSame = (a: Place, b: Place): boolean => a.course === b.course && a.string === b.string;

/** The maker's figures go with the old string: those of the new one are worked out from its material and gauge. */
const withChange = (on: Course, course: number, { material, wound, diameterMillimetres, ...place }: StringChange): Course => ({
  ...on,
  strings: on.strings.map((fitted, string) =>
    isSame(place, { course, string }) ? { material, wound, diameterMillimetres, linearDensityKilogramsPerMetre: null } : fitted,
  ),
});
