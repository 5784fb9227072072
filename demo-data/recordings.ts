import { addNoise, pluckSound, sumOf } from '#shared/simulation/sound/index.ts';
import { creepCents } from '#shared/simulation/strings/index.ts';
import { demoString } from './creep.ts';

/** One pluck as it was played. `hertz` is where the string rests at the end of it; `steady` = nobody touched its peg meanwhile. */
export type TruePluck = {
  readonly atSeconds: number;
  readonly untilSeconds: number;
  /** Place from the player's eye, from 0. */
  readonly course: number;
  readonly string: number;
  readonly hertz: number;
  readonly steady: boolean;
};

/** A recording, and what is true of it. */
export type DemoRecording = {
  readonly file: string;
  readonly instrumentId: string;
  readonly tuningId: string;
  readonly samples: Float32Array;
  readonly plucks: readonly TruePluck[];
};

/** How a string sounds. Stiffness is of the order of B = π³Ed⁴/(64TL²) for its gauge, with E about 4 GPa (assumed); decay to −60 dB. */
type Voice = { readonly wantedHertz: number; readonly stiffness: number; readonly decaySeconds: number };

/** One pluck of a course: rests at `fromCents` of its voice's pitch; the peg then takes it to `toCents`, at so many cents a second. */
type Score = { readonly course: number; readonly seconds: number; readonly fromCents: number; readonly toCents?: number };

const voice = (wantedHertz: number, stiffness: number, decaySeconds: number): Voice => ({ wantedHertz, stiffness, decaySeconds });

const wrenHome = [voice(391.9954, 6e-5, 3.4), voice(261.6256, 1.1e-4, 4.2), voice(329.6276, 8e-5, 3.8), voice(440, 5e-5, 3.2)];
const wrenLantern = [voice(391.9954, 6e-5, 3.4), voice(233.0819, 1.4e-4, 4.4), voice(311.127, 9e-5, 3.9), voice(466.1638, 4e-5, 3.1)];
const mothOpen = [voice(146.8324, 9e-5, 5), voice(195.9977, 7e-5, 4.6), voice(246.9417, 1.2e-4, 4.2), voice(293.6648, 6e-5, 3.8)];

const leadInSeconds = 0.7;
const gapSeconds = 0.1;
const zerosSeconds = 0.25;
/** A hand that stops the string takes about this long. */
const dampSeconds = 0.05;

/** Reaction before the peg is turned, and how fast it goes. */
const pegFromSeconds = 0.25;
const coarseCentsPerSecond = 160;
const fineCentsPerSecond = 30;

const pegTravel =
  (from: number, to: number, pluckedAtSeconds: number) =>
  (atSeconds: number): number => {
    const speed = Math.abs(to - from) > 40 ? coarseCentsPerSecond : fineCentsPerSecond;
    const travelled = Math.max(0, atSeconds - pluckedAtSeconds - pegFromSeconds) * speed;
    return Math.sign(to - from) * Math.min(Math.abs(to - from), travelled);
  };

/** Plays a score: each string is stopped by the hand before the next is plucked; a faint hiss of the room throughout, silence at the end. */
function play(voices: readonly Voice[], score: readonly Score[], sampleRateHertz: number, seed: number) {
  let atSeconds = leadInSeconds;
  const plucks: TruePluck[] = [];
  const clips = score.map(({ course, seconds, fromCents, toCents = fromCents }, index) => {
    const { wantedHertz, stiffness, decaySeconds } = voices[course] ?? voice(440, 1e-4, 3);
    const pluckedAtSeconds = atSeconds;
    const untilSeconds = atSeconds + seconds;
    atSeconds = untilSeconds + gapSeconds;
    const { samples } = pluckSound({
      hertz: wantedHertz * 2 ** (fromCents / 1200),
      sampleRateHertz,
      seconds: untilSeconds,
      seed: seed + index,
      pluckedAtSeconds,
      inharmonicity: stiffness,
      decaySeconds,
      amplitude: 0.32 + 0.02 * ((index * 5) % 7),
      glideCents: 2 + ((index * 3) % 4),
      glideSeconds: 0.08,
      pluckPosition: 0.17 + 0.02 * (index % 4),
      attackNoise: 0.06,
      pegCents: pegTravel(fromCents, toCents, pluckedAtSeconds),
    });
    const dampFrom = samples.length - Math.round(dampSeconds * sampleRateHertz);
    const hertz = Math.round(wantedHertz * 2 ** (toCents / 1200) * 10_000) / 10_000;
    plucks.push({
      atSeconds: round(pluckedAtSeconds),
      untilSeconds: round(untilSeconds),
      course,
      string: 0,
      hertz,
      steady: fromCents === toCents,
    });
    return samples.map((value, at) => (at < dampFrom ? value : (value * (samples.length - at)) / (samples.length - dampFrom)));
  });
  const room = new Float32Array(Math.round(atSeconds * sampleRateHertz));
  const sounding = addNoise(sumOf([room, ...clips]), { ratioDecibels: 52, sampleRateHertz, seed: seed + 1000, colour: 'pink' });
  const samples = new Float32Array(sounding.length + Math.round(zerosSeconds * sampleRateHertz));
  samples.set(sounding);
  return { samples, plucks };
}

const round = (seconds: number): number => Math.round(seconds * 1000) / 1000;

/** Cents from Home before the retune, and from Lantern E♭ right after it. */
const before = [1.6, -2.4, 0.7, -4.3] as const;
const landed = [1.6, 0.4, -0.5, 0.6] as const;
/** What the retune moved, and what that does in ten minutes by the law of creep.ts. */
const moved = [0, -200, -100, 100] as const;
const fluorocarbon = { material: 'fluorocarbon', wound: false, daysSinceChange: null } as const;
const tenMinutesLater = landed.map(
  (cents, course) =>
    cents + creepCents(demoString('demo-wren', course, fluorocarbon), [{ atSeconds: 0, cents: moved[course] ?? 0 }], 600, null),
);

const each = (deviations: readonly number[], seconds: number): Score[] =>
  deviations.map((fromCents, course) => ({ course, seconds, fromCents }));

/** One course of the retune, in cents from Lantern E♭: heard as it was, turned past its aim or short of it, corrected, heard again. */
function turned(course: number, stops: readonly number[]): Score[] {
  const start = (before[course] ?? 0) - (moved[course] ?? 0);
  const end = landed[course] ?? 0;
  const path = [start, ...stops, end];
  const turns = path.slice(1).map((toCents, index) => ({ course, seconds: 1.35, fromCents: path[index] ?? 0, toCents }));
  return [{ course, seconds: 1.2, fromCents: start }, ...turns, { course, seconds: 2.3, fromCents: end }];
}

const retuneScore: readonly Score[] = [
  ...turned(1, [70, -8]), // 3 loosen, a little too far
  ...turned(2, [9]), // 2 loosen, not far enough
  ...turned(3, [-7]), // 1 tighten, not far enough
  ...each(landed, 2.1), // every course once more
];

/**
 * The recordings of the demo. The files that are checked in are made at 16 000 hertz to keep them small; a test that wants more of the
 * spectrum makes the same ones at a higher rate, and the truth is the same.
 */
export const demoRecordings = (sampleRateHertz: number): readonly DemoRecording[] => [
  {
    file: 'wren-before.wav',
    instrumentId: 'demo-wren',
    tuningId: 'demo-home',
    ...play(wrenHome, each(before, 1.6), sampleRateHertz, 100),
  },
  {
    file: 'wren-retune.wav',
    instrumentId: 'demo-wren',
    tuningId: 'demo-lantern-e-flat',
    ...play(wrenLantern, retuneScore, sampleRateHertz, 200),
  },
  {
    file: 'wren-after.wav',
    instrumentId: 'demo-wren',
    tuningId: 'demo-lantern-e-flat',
    ...play(wrenLantern, each(tenMinutesLater, 1.6), sampleRateHertz, 300),
  },
  {
    file: 'moth-settling.wav',
    instrumentId: 'demo-moth',
    tuningId: 'demo-harbour-c',
    ...play(mothOpen, each([0.8, -0.6, 1.1, -3.4], 1.8), sampleRateHertz, 400),
  },
];
