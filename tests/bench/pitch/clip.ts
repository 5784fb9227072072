import type { PluckedSound } from '#shared/simulation/sound/index.ts';
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

/** One pluck with its truth. */
export type Clip = {
  readonly samples: Float32Array;
  /** The string as it is at that moment. */
  readonly truthHertz: (atSeconds: number) => number;
  readonly pluckedAtSeconds: number;
  /** Other strings ring before the pluck: a pitch shown then is no mistake. */
  readonly othersRing?: true;
  /** What may sound, and which of it is asked for: the hint. */
  readonly strings: readonly number[];
  readonly asked: number;
  /** Where white noise is all that was added: the pluck without it, and its deviation. Null elsewhere: there is no bound. */
  readonly white: { readonly clean: PluckedSound; readonly deviation: number } | null;
};

export const sampleRateHertz = 48_000;

/** The random choices of one clip. */
export type Draw = {
  readonly uniform: (low: number, high: number) => number;
  readonly pick: <Value>(values: readonly Value[]) => Value;
  readonly seed: number;
};

export const drawFrom = (seed: number): Draw => {
  const generator = xoroshiro128plus(seed);
  // The first numbers of neighbouring seeds resemble one another.
  for (let skipped = 0; skipped < 20; skipped++) uniformFloat64(generator);
  const uniform = (low: number, high: number) => low + (high - low) * uniformFloat64(generator);
  return {
    uniform,
    seed,
    pick: (values) => {
      const value = values[Math.floor(uniform(0, values.length))];
      if (value === undefined) throw new RangeError('there must be something to pick from; got nothing');
      return value;
    },
  };
};

export const hertzOfKey = (key: number) => 440 * 2 ** ((key - 69) / 12);
