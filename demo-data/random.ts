import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

/** Random numbers that belong to a seed: `uniform` in 0…1, `normal` with mean 0 and deviation 1 (Box–Muller), `pick` one of a list. */
export function seeded(seed: number) {
  const generator = xoroshiro128plus(seed);
  const uniform = (): number => uniformFloat64(generator);
  const normal = (): number => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
  const pick = <Item>(items: readonly [Item, ...Item[]]): Item => items[Math.floor(uniform() * items.length)] ?? items[0];
  return { uniform, normal, pick };
}

export type Seeded = ReturnType<typeof seeded>;
