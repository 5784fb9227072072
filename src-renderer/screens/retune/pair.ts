import type { StringState } from '#shared/guidance/index.ts';
import { centsBetween, hertz } from '#shared/units/index.ts';
import { centsText, halves } from '../../ui/words.ts';
import { whichString } from './sentences.ts';

/** Two strings that should sound alike and lie farther apart than this do not beat, they disagree, in cents. */
const widestBeatCents = 60;

/**
 * A double course in words: how far its strings are apart and how fast they beat (the difference of their frequencies, where they are in unison),
 * and where the string that is not being turned lies. Empty for a single string, and before both were heard.
 */
export function pairOf(
  strings: readonly StringState[],
  turned: number | null,
  instrument: { readonly upsideDown: boolean },
): { readonly pair: string; readonly other: string } {
  const [upper, lower] = strings;
  if (upper === undefined || lower === undefined || upper.sigmaCents === null || lower.sigmaCents === null) return { pair: '', other: '' };
  const apart = Math.abs(offOf(upper) - offOf(lower));
  const sigma = Math.hypot(upper.sigmaCents, lower.sigmaCents);
  const isUnison = Math.abs(centsBetween(hertz(upper.wantedHertz), hertz(lower.wantedHertz))) < 1;
  const beats = Math.abs(upper.presentHertz - lower.presentHertz);
  const beating = isUnison && apart < widestBeatCents && beats >= 0.25 ? `, beating about ${timesASecond(beats)}` : '';
  const other = turned === null ? undefined : strings.find(({ string }) => string !== turned);
  return {
    pair: turned === null ? `pair ${centsText(apart, sigma)} apart` : `Two strings ${centsText(apart, sigma)} apart${beating}`,
    other:
      other === undefined
        ? ''
        : `${whichString(other.string, strings.length, instrument)} is ${centsText(offOf(other), other.sigmaCents ?? 1)} ${offOf(other) < 0 ? 'below' : 'above'}`,
  };
}

const offOf = ({ presentHertz, aimHertz }: StringState): number => centsBetween(hertz(presentHertz), hertz(aimHertz));

const timesASecond = (hertzApart: number): string => (hertzApart < 0.75 ? 'once in two seconds' : `${halves(hertzApart)} times a second`);
