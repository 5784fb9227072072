import { growthOf, type CreepLaw } from './creep.ts';

// The laws that a string may follow: the four that the literature argues for (creep.ts), believed equally, each with its parameters about even
// in the logarithm, the usual ones first. All figures are ASSUMED. Between two laws of the list lies the string's own: how far it departs from
// the listed one towards a neighbour is one more unknown.

/** A law with its neighbours on either side, about half way to the next of the list. */
export interface ListedLaw {
  readonly law: CreepLaw;
  readonly neighbours: readonly [CreepLaw, CreepLaw];
  /** Which of the four it belongs to, 0…3. */
  readonly family: number;
  /** Shares of all laws sum to 1. */
  readonly share: number;
}

const minutes = 60;
type Listed = Omit<ListedLaw, 'share' | 'family'>;

const logarithm = (onsetMinutes: number): CreepLaw => ({ onsetSeconds: onsetMinutes * minutes, bend: 0 });
const logarithms: readonly Listed[] = [0.5, 2, 0.12, 8].map((onset) => ({
  law: logarithm(onset),
  neighbours: [logarithm(onset / 2), logarithm(onset * 2)],
}));

const power = (bend: number): CreepLaw => ({ onsetSeconds: 1, bend });
const powers: readonly Listed[] = [0.24, 0.1, 0.38].map((exponent) => ({
  law: power(exponent),
  neighbours: [power(exponent - 0.07), power(exponent + 0.07)],
}));

const stretched: readonly Listed[] = [50, 15, 150, 5].map((relaxation) => {
  const law = (exponent: number): CreepLaw => ({ relaxationSeconds: relaxation * minutes, exponent });
  return { law: law(0.45), neighbours: [law(0.3), law(0.6)] };
});

const twoStage: readonly Listed[] = [1.4, 2.4, 0.8, 4.2].flatMap((fast) =>
  [75, 25, 225].map((slow) => {
    const law = (fastShare: number): CreepLaw => ({ fastSeconds: fast * minutes, slowSeconds: slow * minutes, fastShare });
    return { law: law(0.5), neighbours: [law(0.3), law(0.7)] };
  }),
);

const families = [logarithms, powers, stretched, twoStage];

/** Every law of the list. */
export const listedLaws: readonly ListedLaw[] = families.flatMap((family, index) =>
  family.map((listed) => ({ ...listed, family: index, share: 1 / families.length / family.length })),
);

/** What one step from the law to its second neighbour adds to its growth; from minute 1 to minute 30 nothing, as every law is scaled there. */
export function departureOf({ neighbours: [one, other] }: Listed): (seconds: number) => number {
  const [less, more] = [growthOf(one), growthOf(other)];
  return (seconds) => (more(seconds) - less(seconds)) / 2;
}
