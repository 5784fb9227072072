import type { Overview, Settings } from '#shared/contract/index.ts';
import { homePitches } from '#shared/instruments/index.ts';
import { presentHertz } from '#shared/log/index.ts';
import { carry, type OpenPitches, type Tuning, wantedHertz } from '#shared/tunings/index.ts';
import { hertz } from '#shared/units/index.ts';

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

/** The tuning that an instrument is in, and where its strings are in hertz. */
export type State = { readonly tuning: TuningHere; readonly present: readonly (readonly number[])[] };

/** The tuning that an instrument is in, and where its strings are: as last heard and as far as turned since, else as that tuning has them. */
export function stateOf(overview: Overview, tunings: readonly Tuning[], settings: Settings): State {
  const kept = byId(tunings).get(overview.instrument.tuningId ?? '') ?? null;
  const tuning = tuningOn(overview, kept, settings) ?? tuningOn(overview, null, settings);
  if (tuning === null) throw new Error('an instrument is always in its home tuning at least');
  return { tuning, present: presentHertz(overview.lastReadings, tuning.hertz, overview.turnedSinceHeard) };
}

export { daysSinceFitted } from '#shared/strung/index.ts';

const maps = new WeakMap<readonly Tuning[], ReadonlyMap<string, Tuning>>();

/** The tunings of a library by id, worked out once: a list of instruments asks for one after the other. */
function byId(tunings: readonly Tuning[]): ReadonlyMap<string, Tuning> {
  const known = maps.get(tunings) ?? new Map(tunings.map((tuning) => [tuning.id, tuning]));
  maps.set(tunings, known);
  return known;
}
