import type { Pull } from '../stores/pull.ts';
import { halves } from '../ui/words.ts';

/** How many semitones are left, downward until a string is slack or upward until it may break. */
export type Margin = { readonly side: 'slack' | 'break'; readonly semitones: number };

/** The margin that is used up first among strings; null where none is known. */
export function worstMargin(pulls: readonly Pull[]): Margin | null {
  const known = pulls.flatMap(({ slackIn, breakIn }): Margin[] => [
    ...(slackIn === null ? [] : [{ side: 'slack' as const, semitones: slackIn }]),
    ...(breakIn === null ? [] : [{ side: 'break' as const, semitones: breakIn }]),
  ]);
  return known.reduce<Margin | null>((worst, one) => (worst === null || one.semitones < worst.semitones ? one : worst), null);
}

/** `slack in 1½`, `break in 4½`; where nothing is left, what that means. */
export function marginWords({ side, semitones }: Margin): string {
  if (semitones <= 0) return side === 'slack' ? 'slack: it will sound soft' : 'past the limit for breaking';
  return `${side} in ${halves(semitones)}`;
}

/** Both margins of one string: `slack in 3½, break in 7½`. Empty where neither is known. */
export const bothMargins = ({ slackIn, breakIn }: Pull): string =>
  [
    ...(slackIn === null ? [] : [marginWords({ side: 'slack', semitones: slackIn })]),
    ...(breakIn === null ? [] : [marginWords({ side: 'break', semitones: breakIn })]),
  ].join(', ');
