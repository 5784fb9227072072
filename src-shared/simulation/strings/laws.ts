import type { Random } from './random.ts';

// The four laws by which a virtual string creeps. Parameters are ASSUMED and spread widely: no published fixtures exist.
// Each is scaled to have gone as far after 30 minutes as log10(1 + t/1 min), so that one magnitude means the same under all.

const minute = 60;
const reference = Math.log10(31);

/** A law of creep with its parameters; minutes are minutes. */
export type VirtualLaw =
  | { readonly kind: 'logarithm'; readonly onsetMinutes: number }
  | { readonly kind: 'power'; readonly exponent: number }
  | { readonly kind: 'stretched exponential'; readonly minutes: number; readonly stretch: number }
  | { readonly kind: 'two-stage Prony'; readonly fastMinutes: number; readonly slowMinutes: number; readonly fastShare: number };

/** The name of a law. */
export type LawKind = VirtualLaw['kind'];

/** Every law, for tables and draws. */
export const lawKinds: readonly LawKind[] = ['logarithm', 'power', 'stretched exponential', 'two-stage Prony'];

function unscaled(law: VirtualLaw, minutes: number): number {
  switch (law.kind) {
    case 'logarithm':
      return Math.log10(1 + minutes / law.onsetMinutes);
    case 'power':
      return minutes ** law.exponent;
    case 'stretched exponential':
      return 1 - Math.exp(-((minutes / law.minutes) ** law.stretch));
    case 'two-stage Prony':
      return law.fastShare * (1 - Math.exp(-minutes / law.fastMinutes)) + (1 - law.fastShare) * (1 - Math.exp(-minutes / law.slowMinutes));
    default:
      return law satisfies never;
  }
}

/** How far a law has gone, in decades; 0 before the move, 1.49 after half an hour. */
export const progress = (law: VirtualLaw, seconds: number): number =>
  seconds <= 0 ? 0 : (reference * unscaled(law, seconds / minute)) / unscaled(law, 30);

/** A law of the given kind with parameters drawn from wide ranges (assumed); `spread` above 1 widens them, 2 to twice the ratio in logarithms. */
export function drawLaw(random: Random, kind: LawKind, spread = 1): VirtualLaw {
  const ends = (low: number, high: number): [number, number] => {
    const beyond = (high / low) ** ((spread - 1) / 2);
    return [low / beyond, high * beyond];
  };
  switch (kind) {
    case 'logarithm':
      return { kind, onsetMinutes: random.betweenLog(...ends(0.2, 6)) };
    case 'power':
      return { kind, exponent: random.between(...ends(0.08, 0.35)) };
    case 'stretched exponential':
      return { kind, minutes: random.betweenLog(...ends(8, 150)), stretch: random.between(...ends(0.3, 0.6)) };
    case 'two-stage Prony':
      return {
        kind,
        fastMinutes: random.betweenLog(...ends(0.8, 6)),
        slowMinutes: random.betweenLog(...ends(25, 250)),
        fastShare: Math.min(0.95, random.between(...ends(0.3, 0.7))),
      };
    default:
      return kind satisfies never;
  }
}
