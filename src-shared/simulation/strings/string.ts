import { assumedRate, type Move, type StringFacts } from '#shared/settling/index.ts';
import { drawLaw, lawKinds, progress, type LawKind, type VirtualLaw } from './laws.ts';
import type { Random } from './random.ts';

// A string that remembers every step of tension it ever had, and what befalls it. All magnitudes are ASSUMED.

const day = 86_400;

/** What makes one virtual string creep in its own way. */
export interface VirtualString {
  readonly facts: StringFacts;
  readonly law: VirtualLaw;
  /** Cents per decade for each semitone raised: negative. */
  readonly centsPerDecade: number;
  /** How much of that a lowered string comes back. */
  readonly recovery: number;
  /** How many times more it creeps while it is new. */
  readonly youngFactor: number;
  /** For how many days it is new. */
  readonly youngDays: number;
}

/** A string drawn at random around what is assumed of its material; `spread` above 1 draws it from farther around. */
export function drawString(random: Random, facts: StringFacts, kind: LawKind = random.pick(lawKinds), spread = 1): VirtualString {
  return {
    facts,
    law: drawLaw(random, kind, spread),
    centsPerDecade: assumedRate(facts).mean * Math.exp(random.normal(0.55 * spread)),
    recovery: random.between(0.75, 1.1),
    youngFactor: random.betweenLog(2.2, 6),
    youngDays: random.between(2.5, 4),
  };
}

/**
 * How far creep has carried a string at a moment, in cents, by superposition of all its moves (positive = sharp).
 * `strungAtSeconds` null: so long ago that it does not matter.
 */
export function creepCents(string: VirtualString, moves: readonly Move[], atSeconds: number, strungAtSeconds: number | null): number {
  return moves.reduce((sum, move) => {
    const young = strungAtSeconds !== null && move.atSeconds - strungAtSeconds < string.youngDays * day;
    const share = (young ? string.youngFactor : 1) * (move.cents < 0 ? string.recovery : 1);
    return sum + string.centsPerDecade * share * (move.cents / 100) * progress(string.law, atSeconds - move.atSeconds);
  }, 0);
}
