import { moveOrder } from '#shared/tunings/index.ts';
import { centsBetween, hertz } from '#shared/units/index.ts';
import type { CoachState, StringState } from './state.ts';

/** How far a string is from its aim, in cents; positive = tighten. */
export const centsToGo = (state: StringState): number => centsBetween(hertz(state.aimHertz), hertz(state.presentHertz));

/** The first pass: every string known to be out of tolerance, loosening first. */
export const firstPass = (strings: readonly StringState[], toleranceCents: number): readonly number[] =>
  moveOrder(strings.map((state) => (Math.abs(centsToGo(state)) > toleranceCents ? centsToGo(state) : 0)));

/**
 * The pass after: every string that has not landed, or landed before a peg of another string was last turned by more than a touch
 * (the neck gives way, so the others may have been drawn off). Empty when the instrument is ready.
 */
export const nextPass = ({ strings, lastTurn }: Pick<CoachState, 'strings' | 'lastTurn'>): readonly number[] =>
  strings.flatMap(({ landedAtSeconds, skipped }, place) => {
    if (skipped) return [];
    const isStale = lastTurn !== null && lastTurn.place !== place && (landedAtSeconds ?? 0) < lastTurn.atSeconds;
    return landedAtSeconds === null || isStale ? [place] : [];
  });
