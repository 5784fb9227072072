import { randomness } from './random.ts';

const add = (samples: Float32Array, other: Float32Array, factor: number) =>
  samples.map((value, index) => value + factor * (other[index] ?? 0));

/** Root mean square of the loudest half second (of all, where the clip is shorter). The level that every signal-to-noise ratio here refers to. */
export const loudness = (samples: Float32Array, sampleRateHertz: number) => {
  const length = Math.max(1, Math.min(samples.length, Math.round(sampleRateHertz / 2)));
  let energy = 0;
  let largest = 0;
  for (let index = 0; index < samples.length; index++) {
    energy += (samples[index] ?? 0) ** 2 - (index >= length ? (samples[index - length] ?? 0) ** 2 : 0);
    largest = Math.max(largest, energy);
  }
  return Math.sqrt(largest / length);
};

/**
 * `samples` with `other` mixed in so that `other` is `decibels` against it (both by `loudness`); −20 = a tenth of its amplitude.
 * A clip of silence as `samples` counts as full scale. `mixAt(pluck, babble, -15, 48000)`.
 */
export const mixAt = (samples: Float32Array, other: Float32Array, decibels: number, sampleRateHertz: number) => {
  const level = loudness(samples, sampleRateHertz) || 1;
  const otherLevel = loudness(other, sampleRateHertz);
  return otherLevel === 0 ? samples.slice() : add(samples, other, (10 ** (decibels / 20) * level) / otherLevel);
};

/** The sum of clips as they are, as long as the longest. `sumOf([a, b])`. */
export const sumOf = (clips: readonly Float32Array[]) => {
  const sum = new Float32Array(Math.max(0, ...clips.map((clip) => clip.length)));
  for (const clip of clips) for (let index = 0; index < clip.length; index++) sum[index] = (sum[index] ?? 0) + (clip[index] ?? 0);
  return sum;
};

/** White or pink noise of unit deviation. Pink by a three-pole approximation (common practice, coefficients from memory). `noise({ length: 480, seed: 1 })`. */
export const noise = ({ length, seed, colour = 'white' }: { length: number; seed: number; colour?: 'white' | 'pink' }) => {
  const random = randomness(seed);
  const poles = [0, 0, 0];
  return new Float32Array(length).map(() => {
    const white = random.normal();
    if (colour === 'white') return white;
    poles[0] = 0.99765 * (poles[0] ?? 0) + white * 0.099046;
    poles[1] = 0.963 * (poles[1] ?? 0) + white * 0.2965164;
    poles[2] = 0.57 * (poles[2] ?? 0) + white * 1.0526913;
    return (poles[0] + poles[1] + poles[2] + white * 0.1848) / 1.8;
  });
};

/** `samples` in noise at a signal-to-noise ratio in decibels (by `loudness`). `addNoise(pluck, { ratioDecibels: 10, sampleRateHertz: 48000, seed: 1 })`. */
export const addNoise = (
  samples: Float32Array,
  {
    ratioDecibels,
    sampleRateHertz,
    seed,
    colour = 'white',
  }: { ratioDecibels: number; sampleRateHertz: number; seed: number; colour?: 'white' | 'pink' },
) => {
  const clip = noise({ length: samples.length, seed, colour });
  return mixAt(samples, clip, -ratioDecibels, sampleRateHertz);
};

/**
 * Mains hum of unit amplitude: the mains frequency and its multiples up to the 20th, odd ones stronger, phases and levels from the seed.
 * `mainsHum({ seconds: 1, sampleRateHertz: 48000, mainsHertz: 50.02, seed: 1 })`; bring it to a level with `mixAt`.
 */
export const mainsHum = ({
  seconds,
  sampleRateHertz,
  mainsHertz,
  seed,
}: {
  seconds: number;
  sampleRateHertz: number;
  mainsHertz: number;
  seed: number;
}) => {
  const random = randomness(seed);
  const partials = Array.from({ length: 20 }, (_, index) => ({
    step: (2 * Math.PI * mainsHertz * (index + 1)) / sampleRateHertz,
    level: ((index % 2 === 0 ? 1 : 0.5) * (0.3 + 0.7 * random.uniform())) / (index + 1),
    phase: 2 * Math.PI * random.uniform(),
  }));
  return new Float32Array(Math.round(seconds * sampleRateHertz)).map((_, index) =>
    partials.reduce((sum, { step, level, phase }) => sum + level * Math.sin(step * index + phase), 0),
  );
};

/** `samples` cut off at ±`limit`. `clipped(pluck, 0.2)`. */
export const clipped = (samples: Float32Array, limit: number) => samples.map((value) => Math.max(-limit, Math.min(limit, value)));
