import type { InstrumentString } from '#shared/instruments/index.ts';
import { type KilogramsPerMetre, kilogramsPerMetre, type Material } from '#shared/units/index.ts';

/** Mass per metre, with the least and greatest value it may have where it is only worked out from the gauge. */
export type LinearDensity = { readonly value: KilogramsPerMetre; readonly low: KilogramsPerMetre; readonly high: KilogramsPerMetre };

// Densities in kg/m³: [usual, least, greatest].
// Nylon: makers' unit weights on the packet gauge imply 996 (940–1015), bulk PA66 is 1140; drawn strings thin as they stretch.
// Fluorocarbon (PVDF) 1790, weighed samples 1768–1889. Synthetic gut 1300 from published tensions, its denser kinds to 1370.
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

/**
 * Linear density of a string: the maker's figure where known, else density times cross-section, `μ = ρ·π·d²/4`, with a band.
 * Null where neither a figure nor a diameter is known.
 * A plain string of synthetic gut, 0.62 mm → 0.000392 kg/m.
 */
export function linearDensity(string: InstrumentString): LinearDensity | null {
  const known = string.linearDensityKilogramsPerMetre;
  if (known !== null) return { value: kilogramsPerMetre(known), low: kilogramsPerMetre(known), high: kilogramsPerMetre(known) };
  if (string.diameterMillimetres === null) return null;
  const area = (Math.PI * (string.diameterMillimetres / 1000) ** 2) / 4;
  const [usual, least, greatest] = string.wound
    ? woundDensities[string.material === 'steel' ? 'steel' : 'polymer']
    : densities[string.material];
  return { value: kilogramsPerMetre(usual * area), low: kilogramsPerMetre(least * area), high: kilogramsPerMetre(greatest * area) };
}
