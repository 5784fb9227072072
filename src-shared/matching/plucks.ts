/** A moment of a sound, as the tracker tells it; `sincePluckSeconds` is null where its pluck was not heard. */
type Moment = { readonly atSeconds: number; readonly sincePluckSeconds?: number | null };

/** When a sound was heard last, and when it was plucked, if that was heard. */
export type Plucked = { readonly atSeconds: number; readonly pluckedAtSeconds: number | null };

/** Plucks are told from one another by when they began: those within this are one, in seconds. */
const samePluckSeconds = 0.06;
/** Nothing that was heard rings on through a longer pause than this, in seconds (own choice); and a clock that goes back by more begins anew. */
const ringSeconds = 10;

/** When a sound was plucked, by the tracker's count, on the clock of the frame; null where that was not heard. */
export const pluckedAtOf = ({ atSeconds, sincePluckSeconds = null }: Moment): number | null =>
  sincePluckSeconds === null ? null : atSeconds - sincePluckSeconds;

/** A sound as of this moment. */
export const pluckedOf = (moment: Moment): Plucked => ({ atSeconds: moment.atSeconds, pluckedAtSeconds: pluckedAtOf(moment) });

/**
 * Whether a moment is of another pluck than the sound before it: of one that was heard to begin later. Where listening was interrupted, what rings on has
 * lost its beginning and is still the same sound, until so long a pause that nothing rings through it.
 * `isNewPluck({ atSeconds: 2, pluckedAtSeconds: 1 }, { atSeconds: 4, sincePluckSeconds: 0.5 })` → true.
 */
export function isNewPluck(before: Plucked, moment: Moment): boolean {
  const pluckedAt = pluckedAtOf(moment);
  if (pluckedAt === null) return Math.abs(moment.atSeconds - before.atSeconds) > ringSeconds;
  // A pluck is noticed a little after it began: meanwhile the sound before it was still heard.
  const later = pluckedAt - (before.pluckedAtSeconds ?? before.atSeconds - 2 * samePluckSeconds);
  return later > samePluckSeconds || later < -ringSeconds;
}
