import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

/** A seeded source of random numbers: `uniform` in 0…1, `normal` with mean 0 and deviation 1 (Box–Muller transform). */
export type Randomness = { uniform: () => number; normal: () => number };

/** The random numbers that belong to a seed (any integer); the same seed gives the same numbers. `randomness(7).uniform()` → 0…1. */
export const randomness = (seed: number): Randomness => {
  if (!Number.isInteger(seed)) throw new RangeError(`seed must be an integer; got ${seed}`);
  const generator = xoroshiro128plus(seed);
  const uniform = () => uniformFloat64(generator);
  return { uniform, normal: () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform()) };
};
