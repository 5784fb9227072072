import { parsePitches } from '#shared/music/index.ts';
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
  /** Least and greatest pull of one string in the published sets for this size, in newtons; null where none are published that we know. */
  readonly usualPullNewtons: readonly [number, number] | null;
  /** The same for all strings together. */
  readonly usualTotalPullNewtons: readonly [number, number] | null;
  readonly source: string;
};

/** Where no ranges of pull are published that we know. */
export const pullNotPublished = { usualPullNewtons: null, usualTotalPullNewtons: null } as const;

/** Said of gauges that were worked out rather than read. */
export const workedOut = (newtons: number): string =>
  `Gauges worked out for an even pull of about ${newtons} N a string (own choice), not a published set.`;

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

const inchMillimetres = 25.4;
const inInches = (inches: number): number => Number((inches * inchMillimetres).toFixed(4));

/** A plain steel string by its gauge in inches, as they are sold. */
export const steel = (inches: number): InstrumentString => plain('steel', inInches(inches));

/** A string wound on a steel core by its gauge in inches; its linear density is only worked out. */
export const woundSteel = (inches: number): InstrumentString => ({ ...plain('steel', inInches(inches)), wound: true });

/**
 * A course at home in one to three pitches, `E3 E2` for an octave pair; the last string stands for those that are not named.
 * Throws RangeError where that is no pitch.
 */
export function course(pitches: string, ...strings: readonly [InstrumentString, ...InstrumentString[]]): Course {
  const home = parsePitches(pitches);
  if ('notAPitch' in home) throw new RangeError(`not a pitch: ${home.notAPitch}`);
  return { strings: home.map((_, index) => strings[index] ?? strings.at(-1) ?? strings[0]), home: [...home] };
}
