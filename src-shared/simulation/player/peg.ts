import type { Random } from '../strings/index.ts';

/** A peg: it moves in steps of about so many cents, and loses so many when it is turned back. All ASSUMED. */
export type Peg = { readonly stepCents: number; readonly backlashCents: number };

/** A friction peg (coarse, no play) or a geared one (fine, with play). */
export const drawPeg = (random: Random): Peg =>
  random.chance(0.5)
    ? { stepCents: random.between(0.5, 1.8), backlashCents: random.between(0, 0.5) }
    : { stepCents: random.between(0.1, 0.5), backlashCents: random.between(0.5, 6) };

/** How far a peg takes its string when the hand turns it by so many cents; `before` is the direction of its last turn (0 = none). */
export function turned(random: Random, { stepCents, backlashCents }: Peg, cents: number, before: number): number {
  const isBack = before !== 0 && Math.sign(cents) !== before;
  const left = isBack ? Math.sign(cents) * Math.max(0, Math.abs(cents) - backlashCents) : cents;
  return stepCents * Math.round(left / stepCents + random.between(-0.5, 0.5));
}
