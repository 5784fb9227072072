import { linearDensity, tensionNewtons } from '#shared/tension/index.ts';
import type { InstrumentString } from '#shared/instruments/index.ts';
import { hertz, kilogramsPerMetre, type Material, millimetres } from '#shared/units/index.ts';
import { drawInstrument, type VirtualInstrument } from '../player/index.ts';
import { seededRandom, type Random } from '../strings/index.ts';
import { type Sounding, soundingOf } from './sounding.ts';
import type { Timbre } from './voice.ts';

/** An instrument to be made: its strings, and where they stand, in hertz per course and string from the player's eye down. */
export type SoundingSetup = {
  readonly scaleLengthMillimetres: number;
  readonly courses: readonly {
    readonly strings: readonly InstrumentString[];
    readonly scaleLengthMillimetres?: number | null | undefined;
  }[];
  readonly presentHertz: readonly (readonly number[])[];
  readonly daysSinceChange?: number | null;
  readonly sampleRateHertz: number;
  readonly seed: number;
  /** The chance that a turned peg slips within the next half hour; 0 where left out. */
  readonly slipChance?: number;
};

/** A string whose linear density is not known weighs about so much, in kg/m (middle of published sets for small instruments). */
const usualDensity = 0.0005;
// Young's modulus over density in (km/s)², handbook values (from memory); the core of a wound string is a third of its mass (assumed).
const modulusOverDensity: Readonly<Record<Material, number>> = {
  nylon: 4,
  'synthetic-gut': 4.5,
  gut: 5,
  fluorocarbon: 2.2,
  steel: 25.5,
};
const coreShare = 0.3;

/**
 * Makes an instrument that sounds, creeps, and gives way under its pegs; the same seed makes the same one. All magnitudes are assumed.
 * `createSounding({ scaleLengthMillimetres: 380, courses, presentHertz: [[392], [262], [330], [440]], sampleRateHertz: 48000, seed: 1 })`,
 * then `pluck(3)`, `turnPeg(3, 0, -40)`, `render(block)` … Throws RangeError where a string has no pitch.
 */
export function createSounding(setup: SoundingSetup): Sounding {
  const random = seededRandom(setup.seed);
  const strings = setup.courses.flatMap((course, index) =>
    course.strings.map((string, place) => {
      const present = hertz(setup.presentHertz[index]?.[place] ?? 0);
      const density = linearDensity(string)?.value ?? kilogramsPerMetre(usualDensity);
      const scale = millimetres(course.scaleLengthMillimetres ?? setup.scaleLengthMillimetres);
      const stiffness = density * modulusOverDensity[string.material] * (string.wound ? coreShare : 1);
      const facts = { material: string.material, wound: string.wound, daysSinceChange: setup.daysSinceChange ?? null };
      return { facts, hertz: present, newtons: tensionNewtons(density, scale, present), stiffness };
    }),
  );
  const instrument: VirtualInstrument = drawInstrument(random, { strings, slipChance: setup.slipChance ?? 0 }, 0);
  const stringsPerCourse = setup.courses.map((course) => course.strings.length);
  const { sampleRateHertz, seed } = setup;
  return soundingOf({ instrument, stringsPerCourse, timbres: strings.map(() => drawTimbre(random)), sampleRateHertz, seed });
}

/** How a string of a small instrument might sound. */
export const drawTimbre = (random: Random): Timbre => ({
  inharmonicity: random.betweenLog(4e-5, 2e-4),
  decaySeconds: random.between(2.5, 5),
  glideCents: random.between(0.5, 4),
  pluckPosition: random.between(0.13, 0.3),
});
