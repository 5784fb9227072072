// Simulated plucks with exact truth, class by class, with the goals set for each. Rendered and recorded sound are in files of their own.
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
import { drawFrom, sampleRateHertz, type Clip, type Draw } from './clip.ts';

const seconds = 1.8;

const ukulele = [391.995, 261.626, 329.628, 440];
const baritone = [146.832, 195.998, 246.942, 329.628];
const guitar = [82.407, 110, 146.832, 195.998, 246.942, 329.628];
const mandolin = [195.998, 293.665, 440, 659.255];
const bass = [30.868, 41.203, 55, 73.416, 97.999];
const small = [ukulele, baritone, mandolin];

type Basis = { clean: PluckedSound; strings: readonly number[]; asked: number; pluckedAtSeconds: number };

/** A string of one of the instruments, up to 60 cents from where it is wanted. */
const base = (draw: Draw, families: readonly (readonly number[])[], more: Partial<Pluck> = {}, wound = false): Basis => {
  const strings = draw.pick(families);
  const asked = Math.floor(draw.uniform(0, strings.length));
  const pluckedAtSeconds = draw.uniform(0.35, 0.45);
  const clean = pluckSound({
    hertz: (strings[asked] ?? Number.NaN) * 2 ** (draw.uniform(-60, 60) / 1200),
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

const bare = ({ clean, ...basis }: Basis): Clip => ({ ...basis, samples: clean.samples, truthHertz: clean.truthHertz, white: null });

const noisy = (basis: Basis, ratioDecibels: number, { seed }: Draw): Clip => {
  const { clean, pluckedAtSeconds } = basis;
  const samples = addNoise(clean.samples, { ratioDecibels, sampleRateHertz, seed: seed + 1 });
  const before = samples.subarray(0, Math.floor(pluckedAtSeconds * sampleRateHertz));
  const deviation = Math.sqrt(before.reduce((sum, value) => sum + value ** 2, 0) / before.length);
  return { ...bare(basis), samples, white: { clean, deviation } };
};

/** White noise 55 dB under the pluck: a quiet room and a sound card. */
const quiet = (basis: Basis, draw: Draw): Clip => noisy(basis, 55, draw);

/** In a quiet room, and with another sound at so many decibels. */
const disturbed = (basis: Basis, other: Float32Array, decibels: number, draw: Draw): Clip => {
  const clip = quiet(basis, draw);
  const pluck = basis.clean.samples;
  const both = mixAt(pluck, other, decibels, sampleRateHertz);
  return { ...clip, white: null, samples: clip.samples.map((value, index) => value + (both[index] ?? 0) - (pluck[index] ?? 0)) };
};

const hum = (draw: Draw) =>
  mainsHum({ seconds, sampleRateHertz, mainsHertz: draw.pick([50, 60]) + draw.uniform(-0.05, 0.05), seed: draw.seed + 2 });
const talk = (draw: Draw) => babble({ seconds, sampleRateHertz, voices: draw.pick([1, 2]), seed: draw.seed + 3 });

/** A string that was plucked earlier and still rings. */
const ringing = (hertz: number, draw: Draw, which: number) =>
  pluckSound({
    hertz,
    sampleRateHertz,
    seconds,
    seed: draw.seed + 10 + which,
    pluckedAtSeconds: draw.uniform(0, 0.1),
    decaySeconds: draw.uniform(3, 6),
    attackNoise: 0,
  }).samples;

const neighbours = (decibels: number) => (draw: Draw) => {
  const basis = base(draw, small);
  const others = basis.strings.flatMap((hertz, index) =>
    index === basis.asked || draw.uniform(0, 1) < 0.3 ? [] : [ringing(hertz * 2 ** (draw.uniform(-20, 20) / 1200), draw, index)],
  );
  return { ...disturbed(basis, sumOf(others), decibels, draw), othersRing: true as const };
};

/** One neighbour alone, at a ratio to the string that is plucked, ±8 cents: its unison or its octave. */
const related = (strings: readonly number[], ratio: number) => (draw: Draw) => {
  const basis = base(draw, [strings]);
  const asked = basis.strings[basis.asked] ?? Number.NaN;
  const other = ringing(ratio * asked * 2 ** (draw.uniform(-8, 8) / 1200), draw, 0);
  return { ...disturbed(basis, other, -12, draw), othersRing: true as const };
};

const turning = (draw: Draw) => {
  const fromSeconds = draw.uniform(0.7, 0.9);
  return turningPeg({
    fromSeconds,
    toSeconds: fromSeconds + draw.uniform(0.4, 0.7),
    centsPerSecond: draw.uniform(20, 120) * draw.pick([-1, 1]),
  });
};

/** Four semitones (±50 cents) from where the hint expects the string that was asked for. */
const farOff = (draw: Draw) => {
  const basis = base(draw, small);
  const asked = basis.strings[basis.asked] ?? Number.NaN;
  const hertz = asked * 2 ** ((draw.pick([-400, 400]) + draw.uniform(-50, 50)) / 1200);
  const clean = pluckSound({ hertz, sampleRateHertz, seconds, seed: draw.seed, pluckedAtSeconds: basis.pluckedAtSeconds, glideCents: 2 });
  return quiet({ ...basis, clean }, draw);
};

const cutOff = (draw: Draw): Clip => {
  const clip = quiet(base(draw, small, { amplitude: 1 }), draw);
  const loud = clip.samples.map((value) => value * 2);
  return { ...clip, white: null, samples: clipped(loud, 1) };
};

const simulated: Record<string, (draw: Draw) => Clip> = {
  'clean nylon': (draw) => bare(base(draw, [ukulele, baritone])),
  'clean wound': (draw) => bare(base(draw, [guitar], {}, true)),
  'bass 30-100 Hz': (draw) => quiet(base(draw, [bass], {}, true), draw),
  'noise 40 dB': (draw) => noisy(base(draw, small), 40, draw),
  'noise 20 dB': (draw) => noisy(base(draw, small), 20, draw),
  'noise 10 dB': (draw) => noisy(base(draw, small), 10, draw),
  'noise 0 dB': (draw) => noisy(base(draw, small), 0, draw),
  'mains hum': (draw) => disturbed(base(draw, [...small, guitar]), hum(draw), draw.uniform(-20, 0), draw),
  'speech -15 dB': (draw) => disturbed(base(draw, small), talk(draw), -15, draw),
  'speech -5 dB': (draw) => disturbed(base(draw, small), talk(draw), -5, draw),
  'weak fundamental': (draw) => noisy(base(draw, [baritone, guitar], { weakFundamentalDecibels: draw.uniform(25, 50) }), 35, draw),
  'neighbours -20 dB': neighbours(-20),
  'neighbours -10 dB': neighbours(-10),
  // A re-entrant ukulele whose first string is tuned down to its fourth: G4 beside G4.
  'unison rings -12 dB': related([391.995, 391.995], 1),
  'octave rings -12 dB': related([195.998, 293.665], 2),
  'two polarisations': (draw) =>
    quiet(base(draw, small, { polarisations: [{ splitCents: draw.uniform(-4, 4), balance: draw.uniform(0.2, 0.6) }] }), draw),
  'turning peg': (draw) => quiet(base(draw, small, { decaySeconds: 5, pegCents: turning(draw) }), draw),
  'hard pluck': (draw) => quiet(base(draw, small, { glideCents: draw.uniform(8, 35), glideSeconds: draw.uniform(0.1, 0.4) }), draw),
  clipping: cutOff,
  'far off': farOff,
};

/** Every simulated class, by name: a clip for each seed. */
export const simulatedClasses: Record<string, (seeds: readonly number[]) => Clip[]> = Object.fromEntries(
  Object.entries(simulated).map(([name, make]) => [name, (seeds: readonly number[]) => seeds.map((seed) => make(drawFrom(seed)))]),
);

const settling = (hertz: number) => (seeds: readonly number[]) =>
  seeds.map((seed) => {
    const draw = drawFrom(seed);
    return noisy(base(draw, [[hertz]]), 40, draw);
  });

/** How soon after a pluck the value stays right: two strings of their own. */
export const settlingClasses = { C4: settling(261.626), D3: settling(146.832) };
