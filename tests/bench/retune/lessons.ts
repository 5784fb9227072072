// What the coach assumes of strings that it never heard before, for benches that begin thousands of retunes.
import { assumedCoupling } from '#shared/guidance/coupling.ts';
import { type CoachState, type Drift, learn, type Lessons, type Setup, start } from '#shared/guidance/index.ts';
import { stiffnessOf } from '#shared/guidance/pull.ts';
import type { Strings } from '#shared/matching/index.ts';

const drifts = new Map<string, Drift>();

/** What is assumed of these strings: worked out once for all strings of one kind and age, because it takes longer than a whole run. */
export function lessonsOf(setup: Setup): Lessons {
  const strings = setup.instrument.courses.flatMap((course) => course.strings);
  return {
    coupling: assumedCoupling(strings.map(stiffnessOf)),
    drifts: strings.map((string) => {
      const key = `${string.material} ${string.wound} ${string.daysSinceChange}`;
      const drift =
        drifts.get(key) ??
        learn({ ...setup, instrument: { ...setup.instrument, courses: [{ strings: [string] }] }, wanted: [[440]] }).drifts[0];
      if (drift === undefined) throw new RangeError('nothing learned of one string');
      drifts.set(key, drift);
      return drift;
    }),
  };
}

const plain = { material: 'fluorocarbon', wound: false, daysSinceChange: null, linearDensityKilogramsPerMetre: null } as const;

/** A retune that begins, of plain strings on a concert ukulele of as many courses. */
export function beginPlain(present: Strings, wanted: Strings): CoachState {
  const instrument = { scaleLengthMillimetres: 380, courses: wanted.map(() => ({ strings: [plain] })) };
  const setup: Setup = { instrument, present, wanted, toleranceCents: 3, atSeconds: 0, lead: null, learned: { retunes: [] } };
  return start(setup, lessonsOf(setup));
}
