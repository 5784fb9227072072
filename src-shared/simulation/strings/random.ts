import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

/** A seeded source of chance; the same seed gives the same string of numbers. */
export interface Random {
  /** Evenly between the ends. */
  readonly between: (low: number, high: number) => number;
  /** Evenly in the logarithm between the ends, both above 0. */
  readonly betweenLog: (low: number, high: number) => number;
  /** Normal with mean 0 and the given standard deviation. */
  readonly normal: (deviation: number) => number;
  /** True with the given probability. */
  readonly chance: (probability: number) => boolean;
  /** One of a list that is not empty. */
  readonly pick: <Item>(items: readonly Item[]) => Item;
}

/** Chance from a whole-number seed. `seededRandom(7).between(0, 1)` is the same number every time. */
export function seededRandom(seed: number): Random {
  const generator = xoroshiro128plus(seed);
  const unit = () => uniformFloat64(generator);
  const between = (low: number, high: number) => low + (high - low) * unit();
  return {
    between,
    betweenLog: (low, high) => Math.exp(between(Math.log(low), Math.log(high))),
    // Box and Muller 1958
    normal: (deviation) => deviation * Math.sqrt(-2 * Math.log(1 - unit())) * Math.cos(2 * Math.PI * unit()),
    chance: (probability) => unit() < probability,
    pick: (items) => {
      const item = items[Math.floor(unit() * items.length)];
      if (item === undefined) throw new RangeError('cannot pick from an empty list');
      return item;
    },
  };
}
