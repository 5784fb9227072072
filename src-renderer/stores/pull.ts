import type { Overview } from '#shared/contract/index.ts';
import { courseScaleLength, type Instrument, type InstrumentString, presetById } from '#shared/instruments/index.ts';
import { breakMarginSemitones, breakShare, linearDensity, slackMarginSemitones, tensionNewtons } from '#shared/tension/index.ts';
import { hertz as asHertz, type Millimetres, newtons } from '#shared/units/index.ts';

/** What one string carries at a pitch; each null where the string's figures are not known. */
export type Pull = {
  readonly newtons: number | null;
  readonly slackIn: number | null;
  readonly breakIn: number | null;
  readonly breakShare: number | null;
};

const unknown: Pull = { newtons: null, slackIn: null, breakIn: null, breakShare: null };

/** Pull and margins of a string of an instrument at a pitch in hertz. */
export function pullAt({ instrument, stringSet }: Overview, course: number, string: number, hertz: number | undefined): Pull {
  const on = stringSet.courses[course];
  const fitted = on?.strings[string];
  if (on === undefined || fitted === undefined || hertz === undefined) return unknown;
  return pullOf(fitted, courseScaleLength(instrument, on), hertz, instrument);
}

/** Pull and margins of any string at a pitch in hertz, on an instrument of that kind. */
export function pullOf(string: InstrumentString, scale: Millimetres, hertz: number, { presetId }: Pick<Instrument, 'presetId'>): Pull {
  const pitch = asHertz(hertz);
  const density = linearDensity(string);
  const least = presetById(presetId)?.usualPullNewtons?.[0];
  return {
    newtons: density === null ? null : tensionNewtons(density.value, scale, pitch),
    slackIn: least === undefined ? null : slackMarginSemitones(string, scale, pitch, newtons(least)),
    breakIn: breakMarginSemitones(string, scale, pitch),
    breakShare: breakShare(string, scale, pitch),
  };
}

/** What one string of an instrument of this kind usually pulls, with the words for it; null where nothing is published for it. */
export function usualPull({ presetId }: Instrument): { readonly newtons: readonly [number, number]; readonly words: string } | null {
  const preset = presetById(presetId);
  const newtons = preset?.usualPullNewtons ?? null;
  return preset === null || newtons === null ? null : { newtons, words: `usual for a ${preset.kind.split(',')[0]}` };
}
