import { HostFailure, type Output } from '#shared/contract/index.ts';
import type { Course, InstrumentString } from '#shared/instruments/index.ts';
import type { ChangeCorrection, StringChange } from '#shared/log/index.ts';
import {
  addRemarks,
  changesOf,
  changesOfSameString,
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

const noRemarks = { notes: [], stringChanges: [], warningsSeen: [], snoozes: [], corrections: [], changeCorrections: [] };

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
    const replaced = set.courses[change.course]?.strings[change.string];
    if (replaced === undefined) throw noSuchString(set.name);
    const before = await changesOf(rows, [set.id]);
    await addRemarks(rows, { ...noRemarks, stringChanges: [change] }, 'player', () => replaced);
    const isLatest = !before.some(
      ({ id, course, string, at }) => id === change.id || (isSame({ course, string }, change) && at > change.at),
    );
    if (isLatest) await putStringSet(rows, { ...set, courses: withString(set.courses, change, stringOf(change)) }, 'player');
  });
}

/**
 * After string changes were taken back, or let stand after all: each set has the strings again that are on it then. Where the string that a change
 * took off was not noted, the new one's figures stay.
 */
export async function putStringsAsCorrected(rows: Library['rows'], corrections: readonly ChangeCorrection[]): Promise<void> {
  for (const { stringChangeId } of corrections) {
    const changes = await changesOfSameString(rows, stringChangeId);
    const own = changes.findIndex(({ change }) => change.id === stringChangeId);
    const standing = changes.findLastIndex(({ stands }) => stands);
    const change = changes[own]?.change;
    if (change === undefined || standing > own) continue;
    const string = standing === own ? stringOf(change) : (changes[standing + 1]?.replaced ?? null);
    const set = await findStringSet(rows, change.stringSetId);
    if (string !== null && set !== null) await putStringSet(rows, { ...set, courses: withString(set.courses, change, string) }, 'player');
  }
}

type Place = { readonly course: number; readonly string: number };
const isSame = (a: Place, b: Place): boolean => a.course === b.course && a.string === b.string;

/** The maker's figures go with the old string: those of the new one are worked out from its material and gauge. */
const stringOf = ({ material, wound, diameterMillimetres }: StringChange): InstrumentString => ({
  material,
  wound,
  diameterMillimetres,
  linearDensityKilogramsPerMetre: null,
});

const withString = (courses: readonly Course[], place: Place, put: InstrumentString): Course[] =>
  courses.map((on, course) => ({
    ...on,
    strings: on.strings.map((fitted, string) => (isSame(place, { course, string }) ? put : fitted)),
  }));
