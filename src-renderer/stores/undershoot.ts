import type { Overview } from '#shared/contract/index.ts';
import type { Instrument } from '#shared/instruments/index.ts';
import { useChange } from './library.ts';

// Some pegs have play: a lowered string is taken a little below its aim and brought up. The library keeps which instruments have such pegs.

/** How far below its aim a lowered string is taken where that is wanted, in cents (common practice). */
export const undershootCents = 20;

/** How far below its aim a lowered string of this instrument is taken first, in cents; 0 = not at all. */
export const undershootOf = ({ pegsHavePlay }: Pick<Instrument, 'pegsHavePlay'>): number => (pegsHavePlay ? undershootCents : 0);

/** Writes down whether the pegs of an instrument have play. */
export function useKeepPlay() {
  const save = useChange('instruments.save');
  return ({ instrument, stringSet }: Overview, pegsHavePlay: boolean): void =>
    save.mutate({ instrument: { ...instrument, pegsHavePlay }, stringSet });
}
