import { describe, expect, test } from 'vitest';
import { addNoise, babble, mixAt, pluckSound } from '#shared/simulation/sound/index.ts';
import { errorsOf, framesOf, listenTo, quantile } from './support.ts';

const sampleRateHertz = 48_000;
const seeds = [1, 2, 3, 4];

/** A string that dies away fast, in noise as loud as its beginning: at the end its partials stand four times above the noise of half a second, and less. */
const fading = (seed: number) => {
  const hertz = 300 * 2 ** (seed / 6);
  const pluck = pluckSound({ hertz, sampleRateHertz, seconds: 1.6, seed, pluckedAtSeconds: 0.2, inharmonicity: 2e-4, decaySeconds: 1.6 });
  return { ...pluck, samples: addNoise(pluck.samples, { ratioDecibels: 0, sampleRateHertz, seed: seed + 20 }) };
};

const stoppedAtSeconds = 1.1;
/** A string that a finger stops, in noise. */
const stopped = (seed: number, ratioDecibels: number) => {
  const { samples } = pluckSound({
    hertz: 200 * 2 ** (seed / 5),
    sampleRateHertz,
    seconds: 2,
    seed,
    pluckedAtSeconds: 0.2,
    decaySeconds: 3,
  });
  const damped = samples.map((value, index) => value * Math.min(1, Math.exp((stoppedAtSeconds - index / sampleRateHertz) / 0.01)));
  return addNoise(damped, { ratioDecibels, sampleRateHertz, seed: seed + 20 });
};

describe('a string that was known well', () => {
  test('is shown until it is lost in the noise, with an error that grows and holds', () => {
    for (const seed of seeds) {
      const { samples, truthHertz } = fading(seed);
      const late = framesOf(listenTo(samples)).filter((frame) => frame.atSeconds > 1.1);
      expect(late.length).toBeGreaterThan(20);
      const errors = errorsOf(late, truthHertz);
      expect(quantile(errors, 1)).toBeLessThan(3);
      const ratios = late.map((frame, index) => errors[index]! / frame.sigmaCents);
      expect(quantile(ratios, 0.9)).toBeLessThan(4);
      expect(late.at(-1)!.sigmaCents).toBeGreaterThan(late[0]!.sigmaCents);
    }
  });

  test.each([40, 20, 10, 0])('and is stopped by a finger is not shown for long, in noise %i dB below', (ratioDecibels) => {
    for (const seed of seeds) {
      const after = framesOf(listenTo(stopped(seed, ratioDecibels))).filter((frame) => frame.atSeconds > stoppedAtSeconds + 0.25);
      expect(after.length).toBeLessThan(6);
    }
  });

  test('is not given up because a syllable begins over it', () => {
    const shares = [5_404, 5_707, 5_909].map((seed) => {
      const pluck = pluckSound({ hertz: 450, sampleRateHertz, seconds: 1.8, seed, pluckedAtSeconds: 0.4, decaySeconds: 2.5 });
      const talk = babble({ seconds: 1.8, sampleRateHertz, voices: 1, seed: seed + 3 });
      const events = listenTo(mixAt(pluck.samples, talk, -10, sampleRateHertz), { hint: { hertz: [392, 262, 330, 440], asked: 3 } });
      const late = framesOf(events).filter((frame) => frame.atSeconds > 0.8);
      return errorsOf(late, pluck.truthHertz).filter((error) => Math.abs(error) < 3).length;
    });
    for (const share of shares) expect(share).toBeGreaterThan(40);
  });
});

test('a string whose pitch is a multiple of the mains is read in noise as soon as any other', () => {
  for (const hertz of [300.1, 420.2, 660.2]) {
    const pluck = pluckSound({ hertz, sampleRateHertz, seconds: 1, seed: 7, pluckedAtSeconds: 0.4, decaySeconds: 8, amplitude: 0.2 });
    const samples = addNoise(pluck.samples, { ratioDecibels: 0, sampleRateHertz, seed: 8 });
    const early = framesOf(listenTo(samples)).filter((frame) => frame.atSeconds < 0.65);
    expect(early.length).toBeGreaterThan(12);
  }
});
