import type { InstrumentString } from '#shared/instruments/index.ts';
import type { Hertz, Material, Millimetres, Newtons } from '#shared/units/index.ts';
import { linearDensity } from './linear-density.ts';
import { tensionNewtons } from './pull.ts';

/** Share of breaking stress from which a caution is shown. */
export const cautionShare = 0.75;
/** Share of breaking stress from which a move needs a worded confirmation. */
export const confirmShare = 0.85;

// Where plain strings break, as frequency times length in Hz·m; gauge cancels out. Published limits: gut and synthetic gut 260 (240–280),
// nylon 256.5 (300 MPa, 1140 kg/m³), PVDF 240.2 (413 MPa, 1790 kg/m³), plain steel 291.5 (0.010 in music wire, least strength). They are statistical.
const breakLimits: Readonly<Record<Material, number>> = {
  nylon: 256.5,
  'synthetic-gut': 260,
  fluorocarbon: 240.2,
  gut: 260,
  steel: 291.5,
};

/**
 * Share of the breaking stress that a plain string carries at a pitch: `(f·L / (f·L)max)²`. Null for wound strings, whose core is not known here.
 * Nylon, 650 mm, E4 → 0.70.
 */
export function breakShare(string: Pick<InstrumentString, 'material' | 'wound'>, scaleLength: Millimetres, pitch: Hertz): number | null {
  if (string.wound) return null;
  return ((pitch * scaleLength) / 1000 / breakLimits[string.material]) ** 2;
}

/**
 * Semitones from a pitch up to the share of breaking stress that is set as the limit; negative where it is past it already.
 * Null for wound strings. Nylon, 350 mm, A4, limit 1 → 8.8.
 */
export function breakMarginSemitones(
  string: Pick<InstrumentString, 'material' | 'wound'>,
  scaleLength: Millimetres,
  pitch: Hertz,
  limit = confirmShare,
): number | null {
  const share = breakShare(string, scaleLength, pitch);
  return share === null ? null : 6 * Math.log2(limit / share);
}

/**
 * Semitones from a pitch down to where the string pulls too little to sound well, taken as 0.75 of the least pull published for the size
 * (common practice). Null where the string's linear density is not known.
 */
export function slackMarginSemitones(
  string: InstrumentString,
  scaleLength: Millimetres,
  pitch: Hertz,
  leastUsualPull: Newtons,
): number | null {
  const density = linearDensity(string);
  if (density === null) return null;
  return 6 * Math.log2(tensionNewtons(density.value, scaleLength, pitch) / (0.75 * leastUsualPull));
}
