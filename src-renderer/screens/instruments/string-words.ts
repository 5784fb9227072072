import type { InstrumentPreset, InstrumentString } from '#shared/instruments/index.ts';
import type { Material } from '#shared/units/index.ts';
import { figure } from '../../ui/words.ts';

const materialWords: Readonly<Record<Material, string>> = {
  nylon: 'nylon',
  'synthetic-gut': 'synthetic gut',
  fluorocarbon: 'fluorocarbon',
  gut: 'gut',
  steel: 'steel',
};

/** Every material with its words, for a choice. */
export const materialOptions = Object.entries(materialWords).map(([value, words]) => ({ value: value as Material, words }));

/** A string in words: `0.57 mm fluorocarbon`, `0.84 mm wound nylon, 2.6 g/m`. */
export function stringWords({
  material,
  wound,
  diameterMillimetres,
  linearDensityKilogramsPerMetre,
  ratedTensionNewtons,
}: InstrumentString): string {
  const size = diameterMillimetres === null ? '' : `${figure(diameterMillimetres, 2)} mm `;
  const density = linearDensityKilogramsPerMetre === null ? '' : `, ${figure(linearDensityKilogramsPerMetre * 1000, 2)} g/m`;
  const rating = ratedTensionNewtons === undefined ? '' : `, rated to ${figure(ratedTensionNewtons, 1)} N`;
  return `${size}${wound ? 'wound ' : ''}${materialWords[material]}${density}${rating}`;
}

/** A preset in words that begin as a player would ask for it: `tenor ukulele, high G`. */
export const presetWords = ({ family, kind }: InstrumentPreset): string =>
  family === 'ukulele' ? kind.replace(/^[^,]+/u, (size) => `${size} ukulele`) : kind;
