import type { Overview, Settings } from '#shared/contract/index.ts';
import { courseNumber, homePitches } from '#shared/instruments/index.ts';
import { presentHertz } from '#shared/log/index.ts';
import { carry, type OpenPitches, type Tuning, wantedHertz } from '#shared/tunings/index.ts';
import { centsBetween, hertz } from '#shared/units/index.ts';

/** A tuning as it is on one instrument: its spelled pitches there and their frequencies at tonight's reference. */
export type TuningHere = {
  readonly name: string;
  readonly pitches: OpenPitches;
  readonly hertz: readonly (readonly number[])[];
  readonly sameShapes: boolean;
};

/** A tuning on an instrument; the instrument's home where `tuning` is null. Null where the instrument cannot take the tuning's moves. */
export function tuningOn({ stringSet }: Overview, tuning: Tuning | null, { referenceHertz }: Settings): TuningHere | null {
  const home = homePitches(stringSet);
  const reference = hertz(referenceHertz);
  if (tuning === null) return { name: 'Home', pitches: home, hertz: wantedHertz(home, null, reference), sameShapes: true };
  const carried = carry(tuning, home);
  return carried === null ? null : { name: tuning.name, ...carried, hertz: wantedHertz(carried.pitches, tuning.courses, reference) };
}

/** The tuning that an instrument is in, the courses that its last retune left elsewhere and its name with them, and where its strings are in hertz. */
export type State = {
  readonly tuning: TuningHere;
  readonly apart: readonly number[];
  readonly name: string;
  readonly present: Frequencies;
};

type Frequencies = readonly (readonly number[])[];

/** The tuning that an instrument is in, and where its strings are: as last heard and as far as turned since, else as that tuning has them. */
export function stateOf(overview: Overview, tunings: readonly Tuning[], settings: Settings): State {
  const kept = byId(tunings).get(overview.instrument.tuningId ?? '') ?? null;
  const tuning = tuningOn(overview, kept, settings) ?? tuningOn(overview, null, settings);
  if (tuning === null) throw new Error('an instrument is always in its home tuning at least');
  const present = presentHertz(overview.lastReadings, tuning.hertz, overview.turnedSinceHeard);
  const off = isAsRetuned(overview) ? coursesApart(present, tuning.hertz) : [];
  // Where every course stands apart nothing was left: the reference pitch is another one now.
  const apart = off.length === present.length ? [] : off;
  return { tuning, apart, name: nameBut(tuning.name, apart, present.length), present };
}

/** Whether the instrument is in the tuning in which its last retune left it; else the player has said otherwise since. */
const isAsRetuned = ({ instrument, lastRetune }: Overview): boolean =>
  lastRetune !== null && instrument.tuningId === (lastRetune.finishedAt === null ? lastRetune.fromTuningId : lastRetune.toTuningId);

/** A course this far from its pitch was not brought into the tuning, in cents. */
const apartCents = 50;

/** The courses that stand apart from a tuning, from the player's eye down. */
export const coursesApart = (present: Frequencies, wanted: Frequencies): readonly number[] =>
  wanted.flatMap((strings, course) => {
    const off = strings.map((at, string) => Math.abs(centsBetween(hertz(present[course]?.[string] ?? at), hertz(at))));
    return Math.max(...off) > apartCents ? [course] : [];
  });

/** `Lantern E♭ but for courses 3 and 2`. */
export function nameBut(tuning: string, apart: readonly number[], courses: number): string {
  if (apart.length === 0) return tuning;
  const numbers = apart.map((course) => `${courseNumber(course, courses)}`);
  return `${tuning} but for ${numbers.length === 1 ? 'course' : 'courses'} ${inWords.format(numbers)}`;
}

const inWords = new Intl.ListFormat('en-GB');

export { daysSinceFitted } from '#shared/strung/index.ts';

const maps = new WeakMap<readonly Tuning[], ReadonlyMap<string, Tuning>>();

/** The tunings of a library by id, worked out once: a list of instruments asks for one after the other. */
function byId(tunings: readonly Tuning[]): ReadonlyMap<string, Tuning> {
  const known = maps.get(tunings) ?? new Map(tunings.map((tuning) => [tuning.id, tuning]));
  maps.set(tunings, known);
  return known;
}
