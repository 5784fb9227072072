import { describe, expect, test } from 'vitest';
import { addNoise, mixAt, pluckSound } from '#shared/simulation/sound/index.ts';
import { centsBetween, errorsOf, framesOf, listenTo, quantile } from './support.ts';

const sampleRateHertz = 48_000;
const seconds = 1.8;

/** A string that was heard ringing, and one plucked beside it that dies away faster, in a quiet room. */
const beside = (hertz: number, ratio: number, decibels: number, seed: number) => {
  const pluck = pluckSound({ hertz, sampleRateHertz, seconds, seed, pluckedAtSeconds: 0.4, inharmonicity: 2e-4, decaySeconds: 1.8 });
  const other = pluckSound({ hertz: hertz * ratio, sampleRateHertz, seconds, seed: seed + 10, pluckedAtSeconds: 0.05, decaySeconds: 6 });
  const both = mixAt(pluck.samples, other.samples, decibels, sampleRateHertz);
  const samples = addNoise(both, { ratioDecibels: 55, sampleRateHertz, seed });
  return { pluck, frames: framesOf(listenTo(samples)).filter((frame) => frame.atSeconds > 0.85) };
};

describe('a string that was heard ringing before another is plucked', () => {
  test.each([-25, -12, 12, 25])('and lies %i cents from it is told from it by its partials, and does not pull at it', (cents) => {
    for (const seed of [1, 2]) {
      const { pluck, frames } = beside(392, 2 ** (cents / 1200), -12, seed);
      expect(frames.length).toBeGreaterThan(30);
      expect(quantile(errorsOf(frames, pluck.truthHertz), 0.9)).toBeLessThan(1.5);
    }
  });

  test('an octave or a fourth below it does not hide it, loud or soft', () => {
    for (const [ratio, decibels] of [
      [2, -12],
      [3 / 4, -6],
      [3 / 4, -20],
      [3 / 2, -10],
    ] as const) {
      const { pluck, frames } = beside(294, ratio * 2 ** (5 / 1200), decibels, 3);
      expect(frames.length).toBeGreaterThan(30);
      expect(quantile(errorsOf(frames, pluck.truthHertz), 0.95)).toBeLessThan(0.6);
    }
  });

  test('leaves the error that is said of the plucked one as large as it is, though it is taken away', () => {
    const ratios = Array.from({ length: 12 }, (_, index) => 11 + index).flatMap((seed) => {
      const { pluck, frames } = beside(392, 2 ** ((seed - 16.5) / 900), -12, seed);
      return frames.map((frame) => Math.abs(centsBetween(frame.hertz, pluck.truthHertz(frame.atSeconds))) / frame.sigmaCents);
    });
    expect(ratios.filter((ratio) => ratio < 2).length / ratios.length).toBeGreaterThan(0.85);
  });
});
