import { describe, expect, test } from 'vitest';
import { emptyPartial, addLeakage, measurePartial, setErrors } from '#shared/pitch/partial.ts';
import { createSpectrometer } from '#shared/pitch/spectrum.ts';
import { addNoise, pluckSound } from '#shared/simulation/sound/index.ts';
import { centsBetween, framesOf, listenTo, quantile } from './support.ts';

const sampleRateHertz = 48_000;

/** Errors of all frames from 0.15 s after the pluck, and the errors they were said to have: one list a pluck. */
const heard = (hertz: number, ratioDecibels: number, glideCents: number) =>
  Array.from({ length: 6 }, (_, seed) => {
    const pluck = pluckSound({
      hertz: hertz * 2 ** (seed / 30),
      sampleRateHertz,
      seconds: 0.8,
      seed: 300 + seed,
      pluckedAtSeconds: 0.2,
      inharmonicity: 1e-4 * (1 + seed / 2),
      glideCents,
    });
    const samples = addNoise(pluck.samples, { ratioDecibels, sampleRateHertz, seed: 700 + seed });
    return framesOf(listenTo(samples))
      .filter((frame) => frame.atSeconds > 0.35)
      .map((frame) => ({ cents: centsBetween(frame.hertz, pluck.truthHertz(frame.atSeconds)), sigmaCents: frame.sigmaCents }));
  });

describe('what a frame says of its error', () => {
  test.each([30, 15, 5])('holds in noise %i dB below, and is not much wider than the error is', (ratioDecibels) => {
    const ratios = heard(262, ratioDecibels, 1)
      .flat()
      .map(({ cents, sigmaCents }) => Math.abs(cents) / sigmaCents);
    const within = (limit: number) => ratios.filter((ratio) => ratio < limit).length / ratios.length;
    expect(within(2)).toBeGreaterThan(0.9);
    expect(within(1)).toBeGreaterThan(0.5);
    expect(quantile(ratios, 0.68)).toBeGreaterThan(0.4);
  });

  test('in a room without noise is a few thousandths of a cent once the glide is over', () => {
    const last = heard(330, 90, 0).flatMap((frames) => frames.slice(-1));
    for (const { sigmaCents } of last) expect(sigmaCents).toBeLessThan(0.01);
  });
});

test('in noise the glide of a pluck is not read late', () => {
  const early = heard(262, 10, 3).flatMap((frames) => frames.slice(0, 10));
  const mean = early.reduce((sum, { cents }) => sum + cents, 0) / early.length;
  expect(Math.abs(mean)).toBeLessThan(0.25);
});

test('what a neighbour leaks to a partial is not counted as noise, and moves its frequency no further than its error says', () => {
  const rateHertz = 12_000;
  const length = 2_560;
  const analyse = createSpectrometer(4_096, rateHertz).spectrumOf;
  const ratios = Array.from({ length: 40 }, (_, index) => {
    const hertz = 900 + 3.7 * index;
    const samples = Float64Array.from({ length }, (__, at) => {
      const seconds = (at + 0.5 - length / 2) / rateHertz;
      return Math.cos(2 * Math.PI * hertz * seconds) + Math.cos(2 * Math.PI * (hertz + 37) * seconds + 2.4 * index);
    });
    const [partial, neighbour] = [emptyPartial(), emptyPartial()];
    const spectrum = analyse(samples, 0, length);
    measurePartial(spectrum, hertz, partial);
    measurePartial(spectrum, hertz + 37, neighbour);
    partial.floor = 0;
    setErrors(partial, spectrum.seconds);
    const asNoise = partial.sigmaHertz;
    addLeakage(partial, neighbour, spectrum.seconds);
    setErrors(partial, spectrum.seconds);
    return { ratio: Math.abs(partial.hertz - hertz) / partial.sigmaHertz, share: partial.sigmaHertz / asNoise };
  });
  const all = (key: 'ratio' | 'share') => ratios.map((one) => one[key]);
  expect(quantile(all('ratio'), 0.95)).toBeLessThan(2);
  expect(quantile(all('share'), 0.5)).toBeLessThan(0.7);
});
