import { describe, expect, test } from 'vitest';
import { createConditioner, levelDecibels } from '#shared/pitch/condition.ts';
import { createOnsetDetector } from '#shared/pitch/onset.ts';
import { createStiffnessMemory } from '#shared/pitch/memory.ts';
import { emptyPartial, measurePartial } from '#shared/pitch/partial.ts';
import { mainsPartialOf } from '#shared/pitch/mains.ts';
import { smallest } from '#shared/pitch/select.ts';
import { fitSeries, unknownStiffness } from '#shared/pitch/series.ts';
import { createSpectrometer } from '#shared/pitch/spectrum.ts';
import { createStrays } from '#shared/pitch/stray.ts';
import { stiffRatio } from '#shared/pitch/string.ts';
import { createStrikeJudge, riseAtLeast } from '#shared/pitch/struck.ts';
import { addNoise, noise, pluckSound } from '#shared/simulation/sound/index.ts';
import { centsBetween } from './support.ts';

const rateHertz = 12_000;
const sine = (hertz: number, length: number, rate: number, amplitude = 0.5) =>
  Float64Array.from({ length }, (_, index) => amplitude * Math.sin((2 * Math.PI * hertz * index) / rate));

const heardBy = (samples: Float32Array, sampleRateHertz: number) => {
  const conditioner = createConditioner(sampleRateHertz);
  const onsets = createOnsetDetector(conditioner.state.rateHertz);
  const heard: number[] = [];
  for (const sample of samples) {
    if (!conditioner.take(sample)) continue;
    const { state } = conditioner;
    const onset = onsets.hear(state.samples, state.end, state.count);
    if (onset !== null) heard.push(onset / state.rateHertz);
  }
  return heard;
};

describe('conditioning', () => {
  test('keeps a tone of the band at its level and drops offset and what lies above', () => {
    const levelOf = (samples: Float64Array) => {
      const conditioner = createConditioner(48_000);
      for (const sample of samples) conditioner.take(sample);
      return levelDecibels(conditioner.state, 0.2);
    };
    expect(levelOf(sine(440, 48_000, 48_000))).toBeCloseTo(20 * Math.log10(0.5 / Math.SQRT2), 1);
    expect(levelOf(new Float64Array(48_000).fill(0.5))).toBeLessThan(-60);
    expect(levelOf(sine(9_000, 48_000, 48_000))).toBeLessThan(-50);
  });

  test('survives samples that are no numbers', () => {
    const conditioner = createConditioner(48_000);
    for (let index = 0; index < 4_800; index++) conditioner.take(index === 100 ? Number.NaN : 0.1);
    expect(Number.isFinite(levelDecibels(conditioner.state, 0.05))).toBe(true);
  });
});

describe('a partial', () => {
  test('that decays and glides gives its frequency, decay and drift at the middle of the stretch', () => {
    const length = 2_400;
    const samples = Float64Array.from({ length }, (_, index) => {
      const at = (index + 0.5 - length / 2) / rateHertz;
      return Math.exp(-3 * at) * Math.cos(2 * Math.PI * (441.3 * at + 5 * at * at));
    });
    const partial = emptyPartial();
    expect(measurePartial(createSpectrometer(4_096, rateHertz).spectrumOf(samples, 0, length), 439, partial)).toBe(true);
    expect(partial.hertz).toBeCloseTo(441.3, 2);
    expect(partial.decayPerSecond).toBeCloseTo(3, 1);
    expect(partial.driftHertzPerSecond).toBeCloseTo(10, 1);
  });

  test('in noise is off by as much as its own error says', () => {
    const { spectrumOf } = createSpectrometer(4_096, rateHertz);
    const partial = emptyPartial();
    const ratios = Array.from({ length: 150 }, (_, seed) => {
      const hertz = 400 + seed;
      const hiss = noise({ length: 2_400, seed });
      const samples = sine(hertz, 2_400, rateHertz, 1).map((value, index) => value + 0.3 * hiss[index]!);
      measurePartial(spectrumOf(samples, 0, 2_400), hertz, partial);
      return (partial.hertz - hertz) / partial.sigmaHertz;
    });
    const deviation = Math.sqrt(ratios.reduce((sum, ratio) => sum + ratio * ratio, 0) / ratios.length);
    expect(deviation).toBeGreaterThan(0.7);
    expect(deviation).toBeLessThan(1.3);
  });
});

describe('a series of partials', () => {
  const seriesOf = (hertz: number, inharmonicity: number) =>
    Array.from({ length: 11 }, (_, n) => ({
      ...emptyPartial(),
      heard: n > 0,
      hertz: hertz * stiffRatio(n, inharmonicity),
      sigmaHertz: 0.01,
      power: 1,
      ratio: 100,
    }));

  test('gives pitch and stiffness of the string', () => {
    const fit = fitSeries(seriesOf(261.63, 5e-4), 10, 262, unknownStiffness)!;
    expect(centsBetween(fit.hertz, 261.63)).toBeCloseTo(0, 1);
    expect(fit.stiffness.inharmonicity).toBeCloseTo(5e-4, 5);
  });

  test('is not moved by one foreign partial', () => {
    const partials = seriesOf(261.63, 1e-4);
    partials[3]!.hertz *= 2 ** (12 / 1200);
    expect(Math.abs(centsBetween(fitSeries(partials, 10, 261, unknownStiffness)!.hertz, 261.63))).toBeLessThan(1);
  });

  test('that is two partials which disagree, as a body makes them, teaches no stiffness however often it is heard', () => {
    const partials = seriesOf(207.65, 1e-4);
    partials[2]!.hertz *= 2 ** (8 / 1200);
    const memory = createStiffnessMemory();
    for (let frame = 0; frame < 150; frame++) memory.learn(fitSeries(partials, 2, 207.65, memory.recall(207.65))!);
    expect(memory.recall(207.65).inharmonicity).toBeLessThan(3e-4);
  });

  test('heard again and again teaches the stiffness of its string', () => {
    const memory = createStiffnessMemory();
    for (let frame = 0; frame < 60; frame++) memory.learn(fitSeries(seriesOf(261.63, 5e-4), 10, 262, memory.recall(261.63))!);
    expect(memory.recall(261.63).inharmonicity).toBeCloseTo(5e-4, 5);
  });

  test('that a body pulled about is not trusted blindly once only two agree', () => {
    const strays = createStrays();
    const pulled = (heard: readonly number[]) =>
      seriesOf(110, 1e-4).map((partial, n) => ({
        ...partial,
        heard: heard.includes(n),
        hertz: partial.hertz * 2 ** (([0, -4, 2, 3, -2, 1, 0, 2, -3, 1, 0][n] ?? 0) / 1200),
      }));
    const fit = (heard: readonly number[]) => fitSeries(pulled(heard), 10, 110, unknownStiffness, strays)!;
    const all = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10];
    for (let frame = 0; frame < 60; frame++) fit(all);
    const whole = fit(all);
    const few = fit([2, 3]);
    expect(Math.abs(centsBetween(few.hertz, whole.hertz))).toBeLessThan(2 * Math.hypot(few.sigmaCents, few.systematicCents));
    expect(fitSeries(pulled([2, 3]), 10, 110, unknownStiffness)!.systematicCents).toBeLessThan(few.systematicCents);
  });

  test('of the other string of a unison pair is fitted with a stiffness of its own', () => {
    const memory = createStiffnessMemory();
    for (let frame = 0; frame < 60; frame++) memory.learn(fitSeries(seriesOf(392, 1e-4), 10, 392, memory.recall(392))!);
    const other = fitSeries(seriesOf(392, 2.2e-4), 10, 392, memory.recall(392))!;
    expect(Math.abs(centsBetween(other.hertz, 392))).toBeLessThan(0.1);
    memory.learn(other);
    expect(memory.recall(392).inharmonicity).toBeCloseTo(2.2e-4, 5);
  });

  test('of nothing is null', () => {
    expect(fitSeries([emptyPartial()], 0, 261, unknownStiffness)).toBeNull();
  });
});

describe('plucks', () => {
  test('are heard within ten milliseconds, once each', () => {
    const { samples } = pluckSound({ hertz: 196, sampleRateHertz: 48_000, seconds: 1, seed: 3, pluckedAtSeconds: 0.4 });
    const heard = heardBy(samples, 48_000);
    expect(heard.length).toBe(1);
    expect(Math.abs(heard[0]! - 0.4)).toBeLessThan(0.01);
  });

  test('are not heard in steady noise', () => {
    expect(
      heardBy(
        noise({ length: 96_000, seed: 5 }).map((value) => value * 0.05),
        48_000,
      ),
    ).toEqual([]);
  });
});

describe('a new sound', () => {
  const riseOf = (samples: Float32Array, atSeconds: number) => {
    const conditioner = createConditioner(rateHertz);
    const strike = createStrikeJudge(conditioner.state, conditioner.state.samples);
    for (const [index, sample] of samples.entries()) {
      conditioner.take(sample);
      if (index === Math.round(atSeconds * rateHertz)) strike.onset(index);
    }
    return strike.rise();
  };

  test('is a pluck where it rises at once above what was there', () => {
    const pluck = pluckSound({ hertz: 262, sampleRateHertz: rateHertz, seconds: 0.6, seed: 4, pluckedAtSeconds: 0.4 });
    expect(riseOf(addNoise(pluck.samples, { ratioDecibels: 5, sampleRateHertz: rateHertz, seed: 5 }), 0.4)).toBeGreaterThan(riseAtLeast);
    expect(riseOf(addNoise(pluck.samples, { ratioDecibels: 40, sampleRateHertz: rateHertz, seed: 5 }), 0.4)).toBeGreaterThan(1000);
  });

  test('is none where a sound merely goes on as another', () => {
    const turn = Float32Array.from({ length: 7_200 }, (_, index) =>
      Math.sin((2 * Math.PI * (index < 4_800 ? 200 : 290) * index) / rateHertz),
    );
    expect(riseOf(turn, 0.4)).toBeNull();
  });
});

test('mains partials are known by their number', () => {
  expect(mainsPartialOf(150.03)).toEqual({ mains: 50, partial: 3 });
  expect(mainsPartialOf(119.98)).toEqual({ mains: 60, partial: 2 });
  expect(mainsPartialOf(196)).toBeNull();
});

test('the value of a rank is that of the sorted list', () => {
  const values = Float64Array.from(noise({ length: 101, seed: 9 }));
  const sorted = values.toSorted();
  for (const rank of [0, 15, 50, 100]) expect(smallest(values.slice(), 101, rank)).toBe(sorted[rank]);
});
