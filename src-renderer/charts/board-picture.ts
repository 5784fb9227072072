import type { Axis } from './axis.ts';

/** What every board has, whatever is drawn on it. Moments are those of its axis; cents are from wanted. */
export type BoardPicture = {
  readonly axis: Axis;
  readonly lowestCents: number;
  readonly highestCents: number;
  readonly toleranceCents: number;
  /** Thickness of the string at zero, in px. */
  readonly stringWidth: number;
  /** Moments at which the board has an upright line. */
  readonly frets: readonly number[];
};

/** How far down a board a number of cents lies, 0 at its top and 1 at its bottom; what is beyond it lies on its edge. */
export function shareDown({ lowestCents, highestCents }: Pick<BoardPicture, 'lowestCents' | 'highestCents'>, cents: number): number {
  const within = Math.max(lowestCents, Math.min(highestCents, cents));
  return (highestCents - within) / (highestCents - lowestCents);
}
