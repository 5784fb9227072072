import { describe, expect, test } from 'vitest';
import {
  addNoise,
  babble,
  clipped,
  loudness,
  mainsHum,
  mixAt,
  noise,
  pluckSound,
  stiffRatio,
  sumOf,
  turningPeg,
} from '#shared/simulation/sound/index.ts';

const sampleRateHertz = 48_000;
const centsBetween = (heard: number, wanted: number) => 1200 * Math.log2(heard / wanted);

/** Amplitude of one frequency in a stretch of samples, with a Hann window. */
const amplitudeAt = (samples: Float32Array, hertz: number, from: number, length: number) => {
  let real = 0;
  let imaginary = 0;
  for (let index = 0; index < length; index++) {
    const window = 1 - Math.cos((2 * Math.PI * index) / length);
    const angle = (2 * Math.PI * hertz * (from + index)) / sampleRateHertz;
    real += window * (samples[from + index] ?? 0) * Math.cos(angle);
    imaginary += window * (samples[from + index] ?? 0) * Math.sin(angle);
  }
  return (2 * Math.hypot(real, imaginary)) / length;
};

/** The loudest frequency within ±30 cents of a guess, to about 0.05 cents. */
const loudestNear = (samples: Float32Array, guess: number, from: number, length: number) => {
  let best = guess;
  for (let reach = 30, middle = guess; reach > 0.04; reach /= 4) {
    let largest = 0;
    for (let step = -8; step <= 8; step++) {
      const hertz = middle * 2 ** ((step * reach) / 8 / 1200);
      const height = amplitudeAt(samples, hertz, from, length);
      if (height > largest) [largest, best] = [height, hertz];
    }
    middle = best;
  }
  return best;
};

describe('a plucked string of known pitch', () => {
  test('sounds its first partial where the truth says', () => {
    const pluck = pluckSound({ hertz: 261.63, sampleRateHertz, seconds: 1.5, seed: 4, inharmonicity: 5e-4 });
    const heard = loudestNear(pluck.samples, 261.63, 24_000, 24_000);
    expect(Math.abs(centsBetween(heard, pluck.truthHertz(0.75)))).toBeLessThan(0.1);
  });

  test('has its higher partials sharp by the stiffness of the string', () => {
    const pluck = pluckSound({ hertz: 196, sampleRateHertz, seconds: 1.5, seed: 5, inharmonicity: 5e-4, pluckPosition: 0.13 });
    const heard = loudestNear(pluck.samples, 196 * stiffRatio(6, 5e-4), 4_800, 24_000);
    expect(centsBetween(heard, 6 * 196)).toBeCloseTo(600 * Math.log2((1 + 36 * 5e-4) / (1 + 5e-4)), 0);
  });

  test('loses its higher partials first', () => {
    const { samples } = pluckSound({ hertz: 196, sampleRateHertz, seconds: 2, seed: 6 });
    const fall = (hertz: number) => amplitudeAt(samples, hertz, 72_000, 9_600) / amplitudeAt(samples, hertz, 9_600, 9_600);
    expect(fall(196 * stiffRatio(4, 1e-4))).toBeLessThan(0.7 * fall(196));
  });

  test('starts sharp and falls to rest by the glide', () => {
    const { truthHertz } = pluckSound({ hertz: 110, sampleRateHertz, seconds: 1, seed: 1, glideCents: 20, glideSeconds: 0.2 });
    expect(centsBetween(truthHertz(0), 110)).toBeCloseTo(20);
    expect(centsBetween(truthHertz(0.2), 110)).toBeCloseTo(20 / Math.E);
  });

  test('follows a peg that is turned and then left alone', () => {
    const pegCents = turningPeg({ fromSeconds: 0.5, toSeconds: 1.5, centsPerSecond: -40 });
    const { truthHertz } = pluckSound({ hertz: 440, sampleRateHertz, seconds: 2, seed: 1, pegCents });
    expect(centsBetween(truthHertz(0.4), 440)).toBeCloseTo(0);
    expect(centsBetween(truthHertz(1), 440)).toBeCloseTo(-20);
    expect(centsBetween(truthHertz(1.9), 440)).toBeCloseTo(-40);
  });

  test('is silent before the pluck, reaches its amplitude, and is the same for the same seed', () => {
    const pluck = { hertz: 330, sampleRateHertz, seconds: 1, seed: 9, pluckedAtSeconds: 0.3, amplitude: 0.25, attackNoise: 0 };
    const { samples } = pluckSound(pluck);
    expect(samples.subarray(0, 14_400).every((value) => value === 0)).toBe(true);
    expect(Math.max(...samples)).toBeGreaterThan(0.15);
    expect(Math.max(...samples)).toBeLessThanOrEqual(0.2501);
    expect(pluckSound(pluck).samples).toEqual(samples);
  });

  test('refuses what no string can do', () => {
    expect(() => pluckSound({ hertz: 0, sampleRateHertz, seconds: 1, seed: 1 })).toThrow(RangeError);
    expect(() => pluckSound({ hertz: 20_000, sampleRateHertz, seconds: 1, seed: 1 })).toThrow(/third/);
  });
});

describe('what a room adds', () => {
  const { samples } = pluckSound({ hertz: 262, sampleRateHertz, seconds: 1, seed: 2 });

  test('noise lies as many decibels under the pluck as asked', () => {
    for (const colour of ['white', 'pink'] as const) {
      const noisy = addNoise(samples, { ratioDecibels: 20, sampleRateHertz, seed: 3, colour });
      const rest = noisy.map((value, index) => value - samples[index]!);
      expect(20 * Math.log10(loudness(samples, sampleRateHertz) / loudness(rest, sampleRateHertz))).toBeCloseTo(20, 0);
    }
  });

  test('noise has unit deviation', () => {
    const clip = noise({ length: 100_000, seed: 8 });
    expect(clip.reduce((sum, value) => sum + value * value, 0) / clip.length).toBeCloseTo(1, 1);
  });

  test('hum stands on the multiples of the mains frequency', () => {
    const hum = mainsHum({ seconds: 1, sampleRateHertz, mainsHertz: 50, seed: 1 });
    expect(amplitudeAt(hum, 150, 0, 48_000)).toBeGreaterThan(20 * amplitudeAt(hum, 175, 0, 48_000));
  });

  test('talk comes and goes and is mixed in at its level', () => {
    const talk = babble({ seconds: 1, sampleRateHertz, voices: 1, seed: 5 });
    const mixed = mixAt(samples, talk, -15, sampleRateHertz);
    const rest = mixed.map((value, index) => value - samples[index]!);
    expect(20 * Math.log10(loudness(rest, sampleRateHertz) / loudness(samples, sampleRateHertz))).toBeCloseTo(-15, 1);
  });

  test('clipping cuts, a sum adds', () => {
    expect(Math.max(...clipped(samples, 0.1))).toBeCloseTo(0.1);
    expect(sumOf([new Float32Array([1, 2]), new Float32Array([1])])).toEqual(new Float32Array([2, 2]));
  });
});
