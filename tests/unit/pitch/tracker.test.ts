import { describe, expect, test } from 'vitest';
import { createPitchTracker } from '#shared/pitch/index.ts';
import { pluckSound, turningPeg } from '#shared/simulation/sound/index.ts';
import { centsBetween, errorsOf, framesOf, listenTo, quantile } from './support.ts';

const sampleRateHertz = 48_000;

describe('a clean pluck', () => {
  const strings = [
    { name: 'soprano A', hertz: 440, inharmonicity: 8e-5 },
    { name: 'soprano C', hertz: 261.63, inharmonicity: 5e-4 },
    { name: 'baritone D, wound', hertz: 146.83, inharmonicity: 1e-4 },
    { name: 'mandolin E', hertz: 659.26, inharmonicity: 3e-5 },
    { name: 'guitar low E', hertz: 82.41, inharmonicity: 6e-5 },
  ];

  test.each(strings)('of a $name is read within half a cent, never an octave off', ({ hertz, inharmonicity }) => {
    for (const seed of [1, 2, 3]) {
      const pluck = pluckSound({
        hertz: hertz * 2 ** (seed / 40),
        inharmonicity,
        sampleRateHertz,
        seconds: 1.5,
        seed,
        pluckedAtSeconds: 0.2,
      });
      const errors = errorsOf(listenTo(pluck.samples), pluck.truthHertz);
      expect(errors.length).toBeGreaterThan(30);
      expect(quantile(errors, 0.95)).toBeLessThan(0.5);
      expect(quantile(errors, 1)).toBeLessThan(100);
    }
  });

  test('is silence, then an attack, then frames that know how long ago the pluck was', () => {
    const { samples } = pluckSound({ hertz: 330, sampleRateHertz, seconds: 1, seed: 5, pluckedAtSeconds: 0.4 });
    const events = listenTo(samples);
    const reasons = events.map((event) => (event.kind === 'refusal' ? event.reason : 'frame'));
    expect([...new Set(reasons)]).toEqual(['silence', 'attack', 'frame']);
    for (const frame of framesOf(events)) expect(frame.sincePluckSeconds).toBeCloseTo(frame.atSeconds - 0.4, 1);
  });

  test('gives at least twenty frames a second while it sounds', () => {
    const { samples } = pluckSound({ hertz: 330, sampleRateHertz, seconds: 2, seed: 6, pluckedAtSeconds: 0 });
    expect(framesOf(listenTo(samples)).length).toBeGreaterThan(20 * 1.8);
  });

  test.each([44_100, 48_000, 88_200, 96_000])('reads the same at %i samples a second, in blocks of any length', (rate) => {
    const pluck = pluckSound({ hertz: 196, sampleRateHertz: rate, seconds: 1, seed: 7, pluckedAtSeconds: 0.1 });
    for (const blockSamples of [128, 1_024, 777]) {
      const errors = errorsOf(listenTo(pluck.samples, { sampleRateHertz: rate, blockSamples }), pluck.truthHertz);
      expect(errors.length).toBeGreaterThan(20);
      expect(quantile(errors, 0.95)).toBeLessThan(0.5);
    }
  });
});

describe('a string that moves', () => {
  test('is followed while the peg turns, and said not to be steady', () => {
    const pegCents = turningPeg({ fromSeconds: 0.8, toSeconds: 1.8, centsPerSecond: -50 });
    const pluck = pluckSound({ hertz: 330, sampleRateHertz, seconds: 2.5, seed: 8, pluckedAtSeconds: 0.1, pegCents });
    const events = listenTo(pluck.samples);
    const turning = framesOf(events).filter((frame) => frame.atSeconds > 1.1 && frame.atSeconds < 1.75);
    expect(quantile(errorsOf(turning, pluck.truthHertz), 0.95)).toBeLessThan(1);
    expect(turning.filter((frame) => frame.steady)).toEqual([]);
    expect(framesOf(events).at(-1)?.steady).toBe(true);
  });

  test('by a peg turned down soon after the pluck is not taken for the bend of a glide, and its error holds', () => {
    const pegCents = turningPeg({ fromSeconds: 0.5, toSeconds: 1.1, centsPerSecond: -80 });
    const pluck = pluckSound({ hertz: 262, sampleRateHertz, seconds: 1.2, seed: 9, pluckedAtSeconds: 0.1, pegCents });
    const turning = framesOf(listenTo(pluck.samples)).filter((frame) => frame.atSeconds > 0.7 && frame.atSeconds < 1.08);
    const errors = errorsOf(turning, pluck.truthHertz);
    expect(quantile(errors, 0.5)).toBeLessThan(0.15);
    const covered = turning.filter((frame, index) => Math.abs(errors[index]!) < 2 * frame.sigmaCents);
    expect(covered.length / turning.length).toBeGreaterThan(0.9);
  });

  test('is read on its way down after a hard pluck', () => {
    const pluck = pluckSound({
      hertz: 110,
      sampleRateHertz,
      seconds: 2,
      seed: 9,
      pluckedAtSeconds: 0.1,
      glideCents: 25,
      glideSeconds: 0.3,
    });
    expect(quantile(errorsOf(listenTo(pluck.samples), pluck.truthHertz), 0.95)).toBeLessThan(1.5);
  });
});

describe('a hint', () => {
  test('never pulls: a string four semitones off reads as such', () => {
    const hint = { hertz: [392, 261.63, 329.63, 440], asked: 2 };
    const pluck = pluckSound({ hertz: 293.66 * 2 ** (-30 / 1200), sampleRateHertz, seconds: 1, seed: 10, pluckedAtSeconds: 0.1 });
    expect(quantile(errorsOf(listenTo(pluck.samples, { hint }), pluck.truthHertz), 1)).toBeLessThan(1);
  });
});

describe('a moment that cannot be trusted', () => {
  test('digital silence is refused as silence', () => {
    const events = listenTo(new Float32Array(24_000));
    expect(new Set(events.map((event) => (event.kind === 'refusal' ? event.reason : 'frame')))).toEqual(new Set(['silence']));
  });

  test('a square wave at full scale is refused as clipped', () => {
    const samples = new Float32Array(48_000).map((_, index) => (Math.sin((2 * Math.PI * 220 * index) / 48_000) > 0 ? 1 : -1));
    expect(listenTo(samples).at(-1)).toMatchObject({ kind: 'refusal', reason: 'clipped' });
  });

  test('a rate that no sound card has is a mistake', () => {
    expect(() => createPitchTracker({ sampleRateHertz: 0 })).toThrow(RangeError);
  });
});

test('after a reset the tracker says again what it said before', () => {
  const { samples } = pluckSound({ hertz: 247, sampleRateHertz, seconds: 0.6, seed: 11, pluckedAtSeconds: 0.1 });
  const tracker = createPitchTracker({ sampleRateHertz });
  const first = tracker.push(samples);
  tracker.reset();
  expect(tracker.push(samples)).toEqual(first);
  expect(centsBetween(framesOf(first).at(-1)!.hertz, 247)).toBeCloseTo(0, 0);
});

test('after a gap in the sound the tracker may keep what it learnt about the strings', () => {
  const inharmonicity = 6e-4;
  const { samples } = pluckSound({ hertz: 147, sampleRateHertz, seconds: 1.5, seed: 12, pluckedAtSeconds: 0.1, inharmonicity });
  const tracker = createPitchTracker({ sampleRateHertz });
  const first = framesOf(tracker.push(samples));
  const offBy = (frames: readonly { inharmonicity: number }[]) => Math.abs(frames[0]!.inharmonicity - inharmonicity);
  tracker.reset({ keepStiffness: true });
  const again = framesOf(tracker.push(samples));
  expect(again[0]!.atSeconds).toBeCloseTo(first[0]!.atSeconds, 1);
  expect(offBy(again)).toBeLessThan(offBy(first));
});
