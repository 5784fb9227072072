import { seededRandom } from '../strings/index.ts';
import type { VirtualInstrument } from '../player/index.ts';
import { pluckedVoice, type Timbre, type Voice } from './voice.ts';

/** An instrument to be heard. Courses and strings count from the player's eye down, from 0. */
export type Sounding = {
  readonly sampleRateHertz: number;
  /** Turns a peg as the hand means it, in cents, positive = tighten; the peg goes there while sound is rendered, in its steps and with its play. */
  readonly turnPeg: (course: number, string: number, cents: number) => void;
  /** Whether a peg is still on its way. */
  readonly isTurning: () => boolean;
  /** Plucks every string of a course, or one of them. */
  readonly pluck: (course: number, string?: number) => void;
  /** All courses, one after the other within about a tenth of a second. */
  readonly strum: () => void;
  /** A hand stops the strings. */
  readonly damp: () => void;
  /** Fills a block with the sound of what comes next. */
  readonly render: (block: Float32Array) => void;
  /** A block of so many samples. `next(480)` at 48 kHz is the next 10 ms. */
  readonly next: (samples: number) => Float32Array;
  /** Where a string is now, in hertz; throws RangeError where there is none. */
  readonly hertz: (course: number, string: number) => number;
  /** The time on the instrument's clock; it goes on with the samples. */
  readonly nowSeconds: () => number;
};

export type SoundingOptions = {
  readonly instrument: VirtualInstrument;
  /** How many strings each course has. */
  readonly stringsPerCourse: readonly number[];
  readonly timbres: readonly Timbre[];
  readonly sampleRateHertz: number;
  readonly seed: number;
  readonly atSeconds?: number;
  /** How fast a peg is turned, in cents a second. */
  readonly turnCentsPerSecond?: number;
  /** Deviation of the hiss of the room, full scale = 1. */
  readonly hiss?: number;
};

/** The pitch is set anew after so many samples while a peg turns, and after so many such steps while none does. */
const stepSamples = 128;
const restingSteps = 8;
const pluckAmplitude = 0.22;
/** Between the strings of one course, and between the courses of a strum, in seconds. */
const withinCourseSeconds = 0.004;
const betweenCoursesSeconds = 0.022;

/** A virtual instrument as sound, rendered block by block. Everything comes from the seed. */
export function soundingOf({
  instrument,
  stringsPerCourse,
  timbres,
  sampleRateHertz,
  seed,
  atSeconds = 0,
  turnCentsPerSecond = 70,
  hiss = 3e-5,
}: SoundingOptions): Sounding {
  const random = seededRandom(seed);
  const firstOf = stringsPerCourse.map((_, course) => stringsPerCourse.slice(0, course).reduce((sum, count) => sum + count, 0));
  const count = stringsPerCourse.reduce((sum, strings) => sum + strings, 0);
  const places = Array.from({ length: count }, (_, place) => place);
  const toGo = places.map(() => 0);
  const voices: Voice[][] = places.map(() => []);
  const pitches = places.map((place) => instrument.hertzAt(place, atSeconds));
  let queued: { readonly place: number; readonly atSample: number }[] = [];
  let rendered = 0;
  let steps = 0;

  const now = () => atSeconds + rendered / sampleRateHertz;
  const placeOf = (course: number, string: number) => {
    if (!(string >= 0 && string < (stringsPerCourse[course] ?? 0))) throw new RangeError(`no string ${string} on course ${course}`);
    return (firstOf[course] ?? 0) + string;
  };
  const stringsOf = (course: number) => places.slice(placeOf(course, 0), placeOf(course, 0) + (stringsPerCourse[course] ?? 0));
  const queuePlucks = (course: number, delaySeconds: number) => {
    for (const [index, place] of stringsOf(course).entries())
      queued.push({ place, atSample: rendered + Math.round((delaySeconds + index * withinCourseSeconds) * sampleRateHertz) });
  };

  const beginPlucks = () => {
    for (const { place } of queued.filter(({ atSample }) => atSample <= rendered)) {
      for (const ringing of voices[place] ?? []) ringing.damp();
      const amplitude = pluckAmplitude * random.between(0.75, 1.25);
      const voice = { amplitude, sampleRateHertz, seed: Math.floor(random.between(1, 2 ** 31)) };
      voices[place]?.push(pluckedVoice(timbres[place] ?? usualTimbre, voice));
      pitches[place] = instrument.hertzAt(place, now());
    }
    queued = queued.filter(({ atSample }) => atSample > rendered);
  };

  const turnPegs = (seconds: number) => {
    for (const [place, cents] of toGo.entries()) {
      if (cents === 0) continue;
      const by = Math.sign(cents) * Math.min(Math.abs(cents), turnCentsPerSecond * seconds);
      instrument.move(place, by, now());
      toGo[place] = cents - by;
    }
  };

  const setPitches = () => {
    if (steps % restingSteps === 0 || toGo.some((cents) => cents !== 0))
      for (const place of places) if (voices[place]?.length !== 0) pitches[place] = instrument.hertzAt(place, now());
    steps += 1;
  };

  const room = hissOf(hiss, seed);

  const render = (block: Float32Array) => {
    room(block);
    for (let from = 0; from < block.length; from += stepSamples) {
      const until = Math.min(block.length, from + stepSamples);
      beginPlucks();
      turnPegs((until - from) / sampleRateHertz);
      setPitches();
      for (const [place, ringing] of voices.entries()) {
        if (ringing.length === 0) continue;
        for (const voice of ringing) voice.addTo(block, from, until, pitches[place] ?? 0);
        if (ringing.some((voice) => voice.isSilent())) voices[place] = ringing.filter((voice) => !voice.isSilent());
      }
      rendered += until - from;
    }
  };

  return {
    sampleRateHertz,
    turnPeg: (course, string, cents) => {
      const place = placeOf(course, string);
      toGo[place] = (toGo[place] ?? 0) + instrument.grip(place, cents, now());
    },
    isTurning: () => toGo.some((cents) => cents !== 0),
    pluck: (course, string) => {
      if (string === undefined) queuePlucks(course, 0);
      else queued.push({ place: placeOf(course, string), atSample: rendered });
    },
    strum: () => {
      for (const course of stringsPerCourse.keys()) queuePlucks(course, course * betweenCoursesSeconds);
    },
    damp: () => {
      for (const ringing of voices) for (const voice of ringing) voice.damp();
    },
    render,
    next: (samples) => {
      const block = new Float32Array(samples);
      render(block);
      return block;
    },
    hertz: (course, string) => instrument.hertzAt(placeOf(course, string), now()),
    nowSeconds: now,
  };
}

const usualTimbre: Timbre = { inharmonicity: 1e-4, decaySeconds: 3.5, glideCents: 2, pluckPosition: 0.2 };

/** Evenly spread noise of that deviation; a linear congruential generator (Numerical Recipes, 2nd ed., 7.1) costs little enough for every sample. */
const hissOf = (deviation: number, seed: number) => {
  let state = seed >>> 0;
  const scale = (deviation * Math.sqrt(12)) / 2 ** 32;
  return (block: Float32Array) => {
    for (let index = 0; index < block.length; index += 1) {
      state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
      block[index] = scale * (state - 2 ** 31);
    }
  };
};
