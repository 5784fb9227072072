import { tensionNewtons } from '#shared/tension/index.ts';
import { type Hertz, hertz, kilogramsPerMetre, type Material, type Millimetres, millimetres } from '#shared/units/index.ts';
import type { CoachString, Setup } from './setup.ts';

/** Where the linear density is not known, a string is taken to pull this much at the pitch it is wanted at, in newtons (the middle of published sets). */
const usualNewtons = 45;

/** The scale length of a course: its own, else the instrument's. */
export const scaleLengthOf = ({ instrument }: Pick<Setup, 'instrument'>, course: number): Millimetres =>
  millimetres(instrument.courses[course]?.scaleLengthMillimetres ?? instrument.scaleLengthMillimetres);

/** The pull of one string at a pitch, in newtons. */
export function pullNewtons(setup: Pick<Setup, 'instrument' | 'wanted'>, course: number, string: number, at: number): number {
  const { instrument, wanted } = setup;
  const density = instrument.courses[course]?.strings[string]?.linearDensityKilogramsPerMetre ?? null;
  if (density !== null) return tensionNewtons(kilogramsPerMetre(density), scaleLengthOf(setup, course), pitch(at));
  return usualNewtons * (at / (wanted[course]?.[string] ?? at)) ** 2;
}

const pitch = (value: number): Hertz => hertz(value);

// Young's modulus over density in (km/s)², ordinary handbook values (from memory): it spreads widely among polymers.
const modulusOverDensity: Readonly<Record<Material, number>> = {
  nylon: 4.5,
  'synthetic-gut': 4,
  gut: 4.5,
  fluorocarbon: 2.5,
  steel: 25,
};
/** A wound string is stretched by its core alone, which is this share of its mass (assumed). */
const coreShare = 0.3;

/** How stiff a string is lengthwise, in proportion to others of the same scale length. */
export function stiffnessOf({ material, wound, linearDensityKilogramsPerMetre }: CoachString): number {
  const density = linearDensityKilogramsPerMetre ?? usualDensity;
  return density * modulusOverDensity[material] * (wound ? coreShare : 1);
}

const usualDensity = 0.0005;
