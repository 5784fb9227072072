import { isNewPluck } from '#shared/matching/index.ts';
import { centsBetween, hertz } from '#shared/units/index.ts';
import { type Frame, hearSteady, type HeardPitch, type Steady } from './steady.ts';

/** Plucks gathered without asking whose they are: their pitches in the order heard, and the pluck that sounds. */
export type Gathering = { readonly pitches: readonly HeardPitch[]; readonly pluck: (Steady & { readonly hertz: number }) | null };

/** A pluck this near to an earlier one is the same string once more, in cents. */
const againCents = 8;
/** One pluck moves no further than this from frame to frame, in cents. */
const strideCents = 30;

/** Nothing heard yet. */
export const nothingGathered: Gathering = { pitches: [], pluck: null };

/**
 * Takes one frame. `added` is the pitch that this pluck gave, once it has stood still for long enough; a string plucked again takes the place of its
 * earlier pitch. For "What am I in?", with `whichTuning` of matching. `gatherPluck(nothingGathered, frame)`.
 */
export function gatherPluck(gathering: Gathering, frame: Frame): { readonly gathering: Gathering; readonly added: HeardPitch | null } {
  if (!frame.steady) return { gathering, added: null };
  const before = gathering.pluck;
  const isSame = before !== null && !isNewPluck(before, frame) && apart(frame.hertz, before.hertz) <= strideCents;
  const { pluck, pitch } = hearSteady(isSame ? before : null, frame);
  const sounding = { ...pluck, hertz: frame.hertz };
  if (pitch === null) return { gathering: { ...gathering, pluck: sounding }, added: null };
  const others = gathering.pitches.filter((one) => apart(one.hertz, pitch.hertz) > againCents);
  return { gathering: { pitches: [...others, pitch], pluck: sounding }, added: pitch };
}

const apart = (one: number, other: number): number => Math.abs(centsBetween(hertz(one), hertz(other)));
