import type { InstrumentString } from '#shared/instruments/index.ts';
import type { Material } from '#shared/units/index.ts';
import { crossSection, linearDensity, plainDensity } from './linear-density.ts';

/** What has to be known of a string to say where it breaks: of a plain one its material; of a wound one also its core and mass. */
export type BreakingString = Pick<InstrumentString, 'material' | 'wound'> & Partial<InstrumentString>;

/** Where strings break, as frequency times length in Hz·m: usual, and the least and greatest that are published or feared. */
export type BreakLimit = { readonly value: number; readonly low: number; readonly high: number };

// Frequency times length at which a plain string breaks, Hz·m: ½·√(σ/ρ); the gauge cancels out. Fresh strings; the figures are statistical.
// Gut and synthetic gut 260 (240–280), published by a maker. Nylon 256.49 (drawn, 300 MPa, 1140 kg/m³) and PVDF 240.17 (413 MPa, 1790 kg/m³), published;
// their bands are as wide as that of gut, for want of a figure. Undrawn nylon (45 MPa) is another material: it would forbid every ukulele.
// Steel 292.3: 0.010 in music wire by unit weight and least strength of ASTM A228; 309.5 for 0.009 in at its greatest, 274 for 0.024 in (from memory).
const limits: Readonly<Record<Material, BreakLimit>> = {
  nylon: { value: 256.49, low: 237, high: 276 },
  'synthetic-gut': { value: 260, low: 240, high: 280 },
  fluorocarbon: { value: 240.17, low: 222, high: 259 },
  gut: { value: 260, low: 240, high: 280 },
  steel: { value: 292.33, low: 274, high: 309.5 },
};

/**
 * Where a string breaks, in Hz·m. A wound string breaks by its core, which carries the wrap along: `limit·√(ρcore·Acore/μ)`.
 * Null for a wound string whose core or mass is not known, and on a stranded core, whose section is not that of its diameter.
 * Plain nylon → 256.49 (237 to 276).
 */
export function breakLimit(string: BreakingString): BreakLimit | null {
  const plain = limits[string.material];
  if (!string.wound) return plain;
  const { coreDiameterMillimetres: core, diameterMillimetres = null, linearDensityKilogramsPerMetre = null, material, wound } = string;
  if (core === undefined || material !== 'steel') return null;
  const density = linearDensity({ material, wound, diameterMillimetres, linearDensityKilogramsPerMetre, coreDiameterMillimetres: core });
  if (density === null) return null;
  const factor = (mass: number): number => Math.sqrt((plainDensity(material) * crossSection(core)) / mass);
  return { value: plain.value * factor(density.value), low: plain.low * factor(density.high), high: plain.high * factor(density.low) };
}
