import { describe, expect, test } from 'vitest';
import { addLeakage, clearFloor, emptyPartial, measurePartial, setErrors } from '#shared/pitch/partial.ts';
import { createSpectrometer } from '#shared/pitch/spectrum.ts';
import { createStrays } from '#shared/pitch/stray.ts';
import { addNoise, pluckSound, turningPeg, type Pluck } from '#shared/simulation/sound/index.ts';
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

/** Errors over what they were said to be, of the frames from 0.3 s after the pluck on, over a few strings. */
const ratiosOf = (hertz: number, more: Partial<Pluck>) =>
  Array.from({ length: 5 }, (_, seed) => {
    const pluck = pluckSound({
      hertz: hertz * 2 ** (seed / 15),
      sampleRateHertz,
      seconds: 1.3,
      seed: 40 + seed,
      pluckedAtSeconds: 0.3,
      inharmonicity: 1.5e-4,
      glideCents: 1,
      decaySeconds: 4,
      ...more,
    });
    const samples = addNoise(pluck.samples, { ratioDecibels: 45, sampleRateHertz, seed: 90 + seed });
    return framesOf(listenTo(samples))
      .filter((frame) => frame.atSeconds > 0.6)
      .map((frame) => centsBetween(frame.hertz, pluck.truthHertz(frame.atSeconds)) / frame.sigmaCents);
  }).flat();

test.each([
  ['a bass string, whose partials lie close together', 41, {}],
  ['a string whose first partial a small microphone hardly hears', 110, { weakFundamentalDecibels: 35 }],
  ['a plain string', 330, {}],
])('%s is said to be known about as well as it is', (_, hertz, more) => {
  const ratios = ratiosOf(hertz, more);
  expect(quantile(ratios, 0.68)).toBeGreaterThan(0.4);
  expect(quantile(ratios, 0.68)).toBeLessThan(1.5);
  expect(quantile(ratios, 0.95)).toBeLessThan(3);
});

test('while a peg turns the pitch is that of the newest sample, and its error is small and holds', () => {
  const pluck = pluckSound({
    hertz: 262,
    sampleRateHertz,
    seconds: 1.6,
    seed: 5,
    pluckedAtSeconds: 0.2,
    pegCents: turningPeg({ fromSeconds: 0.8, toSeconds: 1.6, centsPerSecond: 90 }),
  });
  const frames = framesOf(listenTo(addNoise(pluck.samples, { ratioDecibels: 70, sampleRateHertz, seed: 6 })));
  const turning = frames.filter((frame) => frame.atSeconds > 1 && frame.atSeconds < 1.55);
  const errors = turning.map((frame) => centsBetween(frame.hertz, pluck.truthHertz(frame.atSeconds)));
  // A millisecond late is 0.09 cents.
  expect(quantile(errors, 0.5)).toBeLessThan(0.03);
  expect(
    quantile(
      errors.map((error, index) => error / turning[index]!.sigmaCents),
      0.9,
    ),
  ).toBeLessThan(2);
  expect(frames.at(-1)!.atSeconds).toBeGreaterThan(1.6 - 0.0005);
});

test.each([
  ['what lies between the partials of a low string in silence is their side lobes, not noise', 0, 0, 0.2],
  ['noise between the partials of a low string stays noise', 0.05, 0.9, 1],
])('%s', (_, noise, least, most) => {
  const rateHertz = 12_000;
  const length = 2_560;
  const clean = Float32Array.from({ length }, (__, at) =>
    Array.from(
      { length: 12 },
      (___, index) => Math.cos((2 * Math.PI * 60 * (index + 1) * at) / rateHertz + index ** 2) / (index + 1),
    ).reduce((sum, value) => sum + value, 0),
  );
  const samples = noise === 0 ? clean : addNoise(clean, { ratioDecibels: -20 * Math.log10(noise), sampleRateHertz: rateHertz, seed: 3 });
  const spectrum = createSpectrometer(4_096, rateHertz).spectrumOf(Float64Array.from(samples), 0, length, 60);
  const partials = Array.from({ length: 13 }, (__, n) => {
    const partial = emptyPartial();
    partial.heard = n > 0 && measurePartial(spectrum, 60 * n, partial);
    return partial;
  });
  const kept = partials.slice(1).map((partial) => {
    const before = partial.floor;
    clearFloor(partial, partials, 60, spectrum.seconds);
    return partial.floor / before;
  });
  expect(quantile(kept, 0.5)).toBeGreaterThanOrEqual(least);
  expect(quantile(kept, 0.5)).toBeLessThanOrEqual(most);
});

test('what the first vague fit says of the straying of partials is soon outweighed by clear ones', () => {
  const strays = createStrays();
  strays.learn(-3, 0.01);
  for (let fit = 0; fit < 5; fit++) strays.learn(2, 0.8);
  expect(strays.usual()).toBeGreaterThan(1.9);
});
