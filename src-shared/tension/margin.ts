import type { InstrumentString } from '#shared/instruments/index.ts';
import type { Hertz, Millimetres, Newtons } from '#shared/units/index.ts';
import { breakLimit, type BreakingString } from './break-limit.ts';
import { linearDensity } from './linear-density.ts';
import { tensionNewtons } from './pull.ts';

/** Share of breaking stress from which a string counts as high. */
export const highShare = 0.55;
/** Share of breaking stress from which a caution is shown. */
export const cautionShare = 0.75;
/** Share of breaking stress from which a move needs a worded confirmation. */
export const confirmShare = 0.85;
/** A string that pulls less than this share of the least pull published for the size is too slack to sound well (common practice). */
export const slackShare = 0.75;

/**
 * Share of the breaking stress that a string carries at a pitch: `(f·L / (f·L)max)²`. Null for a wound string whose core is not known.
 * Nylon, 650 mm, E4 → 0.70.
 */
export const breakShare = (string: BreakingString, scaleLength: Millimetres, pitch: Hertz): number | null =>
  breakShareBand(string, scaleLength, pitch)?.value ?? null;

/** The same with its band: a weak string of the kind carries the greater share. Nylon, 650 mm, E4 → 0.70 (0.60 to 0.82). */
export function breakShareBand(
  string: BreakingString,
  scaleLength: Millimetres,
  pitch: Hertz,
): { readonly value: number; readonly low: number; readonly high: number } | null {
  const limit = breakLimit(string);
  if (limit === null) return null;
  const share = (most: number): number => ((pitch * scaleLength) / 1000 / most) ** 2;
  return { value: share(limit.value), low: share(limit.high), high: share(limit.low) };
}

/**
 * Semitones from a pitch up to the share of breaking stress that is set as the limit; negative where it is past it already.
 * Null for a wound string whose core is not known. Nylon, 350 mm, A4, limit 1 → 8.8.
 */
export function breakMarginSemitones(string: BreakingString, scaleLength: Millimetres, pitch: Hertz, limit = confirmShare): number | null {
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
  return 6 * Math.log2(tensionNewtons(density.value, scaleLength, pitch) / (slackShare * leastUsualPull));
}
