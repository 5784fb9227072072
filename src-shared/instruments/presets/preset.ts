import { parsePitch, type SpelledPitch } from '#shared/music/index.ts';
import type { Material } from '#shared/units/index.ts';
import type { Course, InstrumentString } from '../instrument.ts';

/** A starting point for a new instrument: what it usually measures, how it is usually strung, and who says so. */
export type InstrumentPreset = {
  readonly id: string;
  readonly family: string;
  readonly kind: string;
  readonly scaleLengthMillimetres: number;
  readonly frets: number;
  readonly courses: readonly Course[];
  /** Least and greatest pull of one string in the published sets for this size, in newtons. */
  readonly usualPullNewtons: readonly [number, number];
  readonly source: string;
};

/** A plain string by material and diameter. */
export const plain = (material: Material, diameterMillimetres: number): InstrumentString => ({
  material,
  wound: false,
  diameterMillimetres,
  linearDensityKilogramsPerMetre: null,
});

/** A wound string by core material, outer diameter and linear density in grams per metre. */
export const wound = (material: Material, diameterMillimetres: number, gramsPerMetre: number): InstrumentString => ({
  material,
  wound: true,
  diameterMillimetres,
  linearDensityKilogramsPerMetre: gramsPerMetre / 1000,
});

/** A course of one string at home in `pitch`. Throws RangeError where that is no pitch. */
export function course(pitch: string, string: InstrumentString): Course {
  const home: SpelledPitch | null = parsePitch(pitch);
  if (home === null) throw new RangeError(`not a pitch: ${pitch}`);
  return { strings: [string], home: [home] };
}
