import {
  addNoise,
  babble,
  clipped,
  mainsHum,
  mixAt,
  pluckSound,
  sumOf,
  turningPeg,
  type Pluck,
  type PluckedSound,
} from '#shared/simulation/sound/index.ts';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';

/** One clip with its truth. `noiseDeviation` is that of added white noise, null where none was added. */
export type Clip = {
  samples: Float32Array;
  /** The pluck alone, for the bound. */
  clean: PluckedSound;
  noiseDeviation: number | null;
  pluckedAtSeconds: number;
  strings: readonly number[];
  asked: number;
};

export const sampleRateHertz = 48_000;
const seconds = 1.8;

const ukulele = [391.995, 261.626, 329.628, 440];
const baritone = [146.832, 195.998, 246.942, 329.628];
const guitar = [82.407, 110, 146.832, 195.998, 246.942, 329.628];
const mandolin = [195.998, 293.665, 440, 659.255];
const bass = [30.868, 41.203, 55, 73.416, 97.999];

type Draw = { uniform: (low: number, high: number) => number; pick: <Value>(values: readonly Value[]) => Value; seed: number };

const drawFrom = (seed: number): Draw => {
  const generator = xoroshiro128plus(seed);
  const uniform = (low: number, high: number) => low + (high - low) * uniformFloat64(generator);
  return { uniform, seed, pick: (values) => values[Math.floor(uniform(0, values.length))]! };
};

type Basis = { clean: PluckedSound; strings: readonly number[]; asked: number; pluckedAtSeconds: number };

const base = (draw: Draw, families: readonly (readonly number[])[], more: Partial<Pluck> = {}, wound = false): Basis => {
  const strings = draw.pick(families);
  const asked = Math.floor(draw.uniform(0, strings.length));
  const pluckedAtSeconds = draw.uniform(0.35, 0.45);
  const clean = pluckSound({
    hertz: strings[asked]! * 2 ** (draw.uniform(-60, 60) / 1200),
    sampleRateHertz,
    seconds,
    seed: draw.seed,
    pluckedAtSeconds,
    inharmonicity: 10 ** (wound ? draw.uniform(-4.5, -3.3) : draw.uniform(-4.3, -3.2)),
    decaySeconds: wound ? draw.uniform(3, 8) : draw.uniform(1.5, 5),
    amplitude: draw.uniform(0.05, 0.5),
    glideCents: draw.uniform(0, 3),
    glideSeconds: draw.uniform(0.08, 0.2),
    pluckPosition: draw.uniform(0.1, 0.45),
    ...more,
  });
  return { clean, strings, asked, pluckedAtSeconds };
};

const small = [ukulele, baritone, mandolin];
const plain = (basis: Basis): Clip => ({ ...basis, samples: basis.clean.samples, noiseDeviation: null });

/** White noise 55 dB under the pluck: a quiet room and a sound card. */
const quiet = (basis: Basis, seed: number): Clip => noisy(basis, 55, seed);

const noisy = (basis: Basis, ratioDecibels: number, seed: number): Clip => {
  const samples = addNoise(basis.clean.samples, { ratioDecibels, sampleRateHertz, seed: seed + 1 });
  let energy = 0;
  const before = Math.round(0.3 * sampleRateHertz);
  for (let index = 0; index < before; index++) energy += samples[index]! ** 2;
  return { ...basis, samples, noiseDeviation: Math.sqrt(energy / before) };
};

const disturbed = (basis: Basis, other: Float32Array, decibels: number): Clip => {
  const clip = quiet(basis, 7);
  const only = mixAt(basis.clean.samples, other, decibels, sampleRateHertz);
  return { ...clip, noiseDeviation: null, samples: clip.samples.map((value, index) => value + only[index]! - basis.clean.samples[index]!) };
};

const hum = (draw: Draw) =>
  mainsHum({ seconds, sampleRateHertz, mainsHertz: draw.pick([50, 60]) + draw.uniform(-0.05, 0.05), seed: draw.seed + 2 });
const talk = (draw: Draw) => babble({ seconds, sampleRateHertz, voices: draw.pick([1, 2]), seed: draw.seed + 3 });

const neighbours = (draw: Draw, basis: Basis) =>
  sumOf(
    basis.strings.flatMap((hertz, index) => {
      if (index === basis.asked || draw.uniform(0, 1) < 0.3) return [];
      const hertzNow = hertz * 2 ** (draw.uniform(-20, 20) / 1200);
      return [
        pluckSound({
          hertz: hertzNow,
          sampleRateHertz,
          seconds,
          seed: draw.seed + 10 + index,
          pluckedAtSeconds: draw.uniform(0, 0.1),
          decaySeconds: draw.uniform(3, 6),
          attackNoise: 0,
        }).samples,
      ];
    }),
  );

/** A re-entrant ukulele whose first string is tuned down to its fourth: G4 beside G4. */
const unison = (draw: Draw) => {
  const basis = base(draw, [[391.995, 261.626, 329.628, 391.995]]);
  const twin = pluckSound({
    hertz: 391.995 * 2 ** (draw.uniform(-8, 8) / 1200),
    sampleRateHertz,
    seconds,
    seed: draw.seed + 20,
    pluckedAtSeconds: 0.03,
    decaySeconds: 4,
    attackNoise: 0,
  });
  return disturbed(basis, twin.samples, -12);
};

const turning = (draw: Draw) => {
  const fromSeconds = draw.uniform(0.7, 0.9);
  return turningPeg({
    fromSeconds,
    toSeconds: fromSeconds + draw.uniform(0.4, 0.7),
    centsPerSecond: draw.uniform(20, 120) * draw.pick([-1, 1]),
  });
};

/** Everything that the bench measures, by name. */
export const classes: Record<string, (draw: Draw) => Clip> = {
  'clean nylon': (draw) => plain(base(draw, [ukulele, baritone])),
  'clean wound': (draw) => plain(base(draw, [guitar], {}, true)),
  'bass 30-100 Hz': (draw) => quiet(base(draw, [bass], {}, true), draw.seed),
  'noise 40 dB': (draw) => noisy(base(draw, small), 40, draw.seed),
  'noise 20 dB': (draw) => noisy(base(draw, small), 20, draw.seed),
  'noise 10 dB': (draw) => noisy(base(draw, small), 10, draw.seed),
  'noise 0 dB': (draw) => noisy(base(draw, small), 0, draw.seed),
  'mains hum': (draw) => disturbed(base(draw, [...small, guitar]), hum(draw), draw.uniform(-20, 0)),
  'speech -15 dB': (draw) => disturbed(base(draw, small), talk(draw), -15),
  'speech -5 dB': (draw) => disturbed(base(draw, small), talk(draw), -5),
  'weak fundamental': (draw) => noisy(base(draw, [baritone, guitar], { weakFundamentalDecibels: draw.uniform(25, 50) }), 35, draw.seed),
  'neighbours -20 dB': (draw) => {
    const basis = base(draw, small);
    return disturbed(basis, neighbours(draw, basis), -20);
  },
  'neighbours -10 dB': (draw) => {
    const basis = base(draw, small);
    return disturbed(basis, neighbours(draw, basis), -10);
  },
  'unison -12 dB': unison,
  'two polarisations': (draw) =>
    quiet(base(draw, small, { polarisations: [{ splitCents: draw.uniform(-4, 4), balance: draw.uniform(0.2, 0.6) }] }), draw.seed),
  'turning peg': (draw) => quiet(base(draw, small, { decaySeconds: 5, pegCents: turning(draw) }), draw.seed),
  'hard pluck': (draw) => quiet(base(draw, small, { glideCents: draw.uniform(8, 35), glideSeconds: draw.uniform(0.1, 0.4) }), draw.seed),
  clipping: (draw) => {
    const clip = quiet(base(draw, small, { amplitude: 1 }), draw.seed);
    return {
      ...clip,
      noiseDeviation: null,
      samples: clipped(
        clip.samples.map((value) => value * 2),
        1,
      ),
    };
  },
  'far off': (draw) => quiet(base(draw, small, { hertz: draw.pick(ukulele) * 2 ** (draw.uniform(-700, 500) / 1200) }), draw.seed),
};

export const clipOf = (name: string, seed: number): Clip => {
  const make = classes[name];
  if (make === undefined) throw new RangeError(`class must be one of ${Object.keys(classes).join(', ')}; got ${name}`);
  return make(drawFrom(seed));
};
