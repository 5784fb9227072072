import type { Overview, Settings } from '#shared/contract/index.ts';
import { stringing, type Stringing } from '#shared/instruments/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';
import { type TuningHere, tuningOn } from '../../stores/strings.ts';
import { chordText } from '../../ui/note-names.ts';
import { marginOn } from './here.ts';

/** A tuning on one of the player's instruments. */
export type CarriedTo = {
  readonly id: string;
  readonly name: string;
  readonly kind: string;
  readonly to: TuningHere;
  readonly chord: string | null;
  readonly stringing: Stringing;
  readonly margin: string | null;
};

/** A tuning on every instrument that can take its moves. */
export const carriedTo = (tuning: Tuning, overviews: readonly Overview[], settings: Settings): readonly CarriedTo[] =>
  overviews.flatMap((overview) => {
    const to = tuningOn(overview, tuning, settings);
    if (to === null) return [];
    const { id, name, kind } = overview.instrument;
    return [{ id, name, kind, to, chord: chordText(to.pitches.flat()), stringing: stringing(to.pitches), margin: marginOn(overview, to) }];
  });
