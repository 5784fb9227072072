import type { InstrumentString } from '#shared/instruments/index.ts';
import {
  type Hertz,
  type KilogramsPerMetre,
  kilogramsPerMetre,
  type Material,
  type Millimetres,
  type Newtons,
} from '#shared/units/index.ts';

/** A figure with the least and greatest value that it may have; all three alike where it is known. */
export type Estimate<Unit extends number> = { readonly value: Unit; readonly low: Unit; readonly high: Unit };

/** Mass per metre; a band where it is only worked out from the gauge. */
export type LinearDensity = Estimate<KilogramsPerMetre>;

// Densities in kg/m³: [usual, least, greatest].
// Nylon: makers' unit weights on the packet gauge imply 996 (940–1015), bulk PA66 is 1140; drawn strings thin as they stretch.
// Fluorocarbon (PVDF) 1790, weighed samples 1768–1889. Synthetic gut 1300 from published tensions, its other kinds 1150 and 1370.
// Gut 1300 (from memory). Steel 7806 from unit weights, 7867 published for harpsichord wire.
const densities: Readonly<Record<Material, readonly [number, number, number]>> = {
  nylon: [996, 940, 1140],
  'synthetic-gut': [1300, 1150, 1370],
  fluorocarbon: [1790, 1768, 1889],
  gut: [1300, 1250, 1350],
  steel: [7806, 7750, 7870],
};

// Effective density on the outer diameter of metal-wound strings, kg/m³. Wound on a polymer core: 4725–5946 (silver-plated copper on nylon,
// from D'Addario's unit weights), rising with the gauge. Wound on steel: 6800–7900 (from memory).
const woundDensities = { polymer: [5300, 4725, 5946], steel: [7300, 6800, 7900] } as const;

// Wrap on a steel core, kg/m³: phosphor bronze 8800 (from memory), nickel-plated steel to copper 7900–8960. On published cores and unit weights of
// two bronze strings the model lands at +0.8 % and −3.0 %. Stranded polymer cores do not follow it.
const wrapDensities = [8800, 7900, 8960] as const;

/** Density of a plain string of a material in kg/m³. */
export const plainDensity = (material: Material): number => densities[material][0];

/** Cross-section of a round string in m². */
export const crossSection = (diameterMillimetres: number): number => (Math.PI * (diameterMillimetres / 1000) ** 2) / 4;

/**
 * Linear density of a string: the maker's figure where known; of a wound one on a steel core whose diameter is known, by core and wrap; else density
 * times cross-section, `μ = ρ·π·d²/4`, with a band. Null where neither a figure nor a diameter is known.
 * A plain string of synthetic gut, 0.62 mm → 0.000392 kg/m.
 */
export function linearDensity(string: InstrumentString): LinearDensity | null {
  const known = string.linearDensityKilogramsPerMetre;
  if (known !== null) return { value: kilogramsPerMetre(known), low: kilogramsPerMetre(known), high: kilogramsPerMetre(known) };
  const { diameterMillimetres: gauge, coreDiameterMillimetres: core, material, wound } = string;
  if (gauge === null) return null;
  if (wound && material === 'steel' && core !== undefined && core < gauge) {
    return estimate(wrapDensities, (wrap) => woundLinearDensity(gauge, core, plainDensity(material), wrap));
  }
  const bulk = wound ? woundDensities[material === 'steel' ? 'steel' : 'polymer'] : densities[material];
  return estimate(bulk, (density) => kilogramsPerMetre(density * crossSection(gauge)));
}

const estimate = (
  [usual, least, greatest]: readonly [number, number, number],
  at: (density: number) => KilogramsPerMetre,
): LinearDensity => ({ value: at(usual), low: at(least), high: at(greatest) });

/**
 * Linear density of a round-wound string by diameters in millimetres and densities in kg/m³:
 * `μ = ρc·π·c²/4 + ρw·π²·w·(c + w)/4`, w = (gauge − core)/2. Throws RangeError unless 0 < core < gauge.
 * Gauge 0.6604, core 0.3556, steel 7806 and bronze 8800 → 0.00245 kg/m.
 */
export function woundLinearDensity(gauge: number, core: number, coreDensity: number, wrapDensity: number): KilogramsPerMetre {
  if (!(core > 0 && core < gauge)) throw new RangeError(`a core lies between 0 and the gauge of ${gauge} mm; got ${core}`);
  const [c, w] = [core / 1000, (gauge - core) / 2000];
  return kilogramsPerMetre((coreDensity * Math.PI * c ** 2) / 4 + (wrapDensity * Math.PI ** 2 * w * (c + w)) / 4);
}

/** What a maker's rated tension says about the string: `μ = T/(2·L·f)²`. 37.2 N at 350 mm and 440 Hz → 0.000392 kg/m. Throws RangeError at 0 N. */
export const densityFromPull = (pull: Newtons, scaleLength: Millimetres, pitch: Hertz): KilogramsPerMetre =>
  kilogramsPerMetre(pull / (2 * (scaleLength / 1000) * pitch) ** 2);

/** A maker's unit weight in pounds per inch, as printed in tables of string tensions. 0.00002215 lb/in → 0.000396 kg/m. */
export const densityFromUnitWeight = (poundsPerInch: number): KilogramsPerMetre => kilogramsPerMetre((poundsPerInch * 0.45359237) / 0.0254);
