import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { demoRecordings, type DemoRecording } from '../../demo-data/recordings.ts';
import { readLibraryFile } from '#shared/exchange/index.ts';
import { homePitches } from '#shared/instruments/index.ts';
import { readWav, secondsOf } from '#shared/recording/index.ts';
import { carry, wantedHertz } from '#shared/tunings/index.ts';
import { hertz } from '#shared/units/index.ts';

const folder = new URL('../../demo-data/', import.meta.url);
const fileOf = (name: string) => readFileSync(new URL(name, folder));

type Truth = { sampleRateHertz: number; recordings: (Omit<DemoRecording, 'samples'> & { seconds: number })[] };
const truth: Truth = JSON.parse(fileOf('recordings/truth.json').toString());

const soundOf = (file: string) => {
  const recording = readWav(fileOf(`recordings/${file}`));
  if ('failure' in recording) throw new Error(recording.failure.sentence);
  return { recording, samples: recording.channels[0]! };
};

/** How strongly one frequency sounds in a stretch of samples (Hann window). */
const strengthOf = (samples: Float32Array, frequency: number, rate: number) => {
  let real = 0;
  let imaginary = 0;
  for (const [index, value] of samples.entries()) {
    const windowed = value * (1 - Math.cos((2 * Math.PI * index) / samples.length));
    real += windowed * Math.cos((2 * Math.PI * frequency * index) / rate);
    imaginary += windowed * Math.sin((2 * Math.PI * frequency * index) / rate);
  }
  return Math.hypot(real, imaginary);
};

/** How far the strongest frequency near a guess lies from it, in cents, searched to 0.05 within ±12. */
const centsFrom = (guess: number, samples: Float32Array, rate: number) => {
  let best = 0;
  for (let reach = 12, middle = 0; reach > 0.1; reach /= 4, middle = best) {
    const tried = Array.from({ length: 17 }, (_, index) => middle + ((index - 8) * reach) / 8);
    const strengths = tried.map((cents) => strengthOf(samples, guess * 2 ** (cents / 1200), rate));
    best = tried[strengths.indexOf(Math.max(...strengths))]!;
  }
  return best;
};

describe.each(truth.recordings)('the recording $file', ({ file, instrumentId, tuningId, seconds, plucks }) => {
  test('is as long as its truth says, begins quietly, ends in zeros and never clips', () => {
    const { recording, samples } = soundOf(file);
    expect(recording.channels).toHaveLength(1);
    expect(recording.sampleRateHertz).toBe(truth.sampleRateHertz);
    expect(secondsOf(recording)).toBe(seconds);
    const loudest = (from: number, until: number) =>
      samples
        .subarray(Math.round(from * truth.sampleRateHertz), Math.round(until * truth.sampleRateHertz))
        .reduce((most, value) => Math.max(most, Math.abs(value)), 0);
    expect(loudest(0, 0.5)).toBeLessThan(0.01);
    expect(loudest(seconds - 0.2, seconds)).toBe(0);
    expect(loudest(0, seconds)).toBeLessThan(0.95);
    expect(plucks.at(-1)!.untilSeconds).toBeLessThan(seconds - 0.2);
  });

  test('sounds where its truth says wherever no peg is turned', () => {
    const { samples } = soundOf(file);
    for (const { atSeconds, untilSeconds, hertz } of plucks.filter(({ steady }) => steady)) {
      const part = samples.subarray((atSeconds + 0.4) * truth.sampleRateHertz, (untilSeconds - 0.1) * truth.sampleRateHertz);
      expect(Math.abs(centsFrom(hertz, part, truth.sampleRateHertz))).toBeLessThan(0.3);
    }
  });

  test('ends each course within half a semitone of what its tuning wants on that instrument', () => {
    const read = readLibraryFile(fileOf('library.json').toString());
    if ('sentence' in read) throw new Error(read.sentence);
    const { stringSetId } = read.file.instruments.find(({ id }) => id === instrumentId)!;
    const tuning = read.file.tunings.find(({ id }) => id === tuningId)!;
    const { pitches } = carry(tuning, homePitches(read.file.stringSets.find(({ id }) => id === stringSetId)!))!;
    for (const [course, [wanted]] of wantedHertz(pitches, tuning.courses, hertz(440)).entries()) {
      const last = plucks.findLast((pluck) => pluck.course === course)!;
      expect(Math.abs(1200 * Math.log2(last.hertz / wanted!))).toBeLessThan(50);
    }
  });
});

describe('the retune of Wren', () => {
  const { plucks } = truth.recordings.find(({ file }) => file === 'wren-retune.wav')!;
  const wanted = [391.9954, 233.0819, 311.127, 466.1638];
  const centsOff = (pluck: { course: number; hertz: number }) => 1200 * Math.log2(pluck.hertz / wanted[pluck.course]!);

  test('loosens courses 3 and 2, tightens course 1, then hears all four again', () => {
    const visits = plucks.map(({ course }) => course).filter((course, index, all) => course !== all[index - 1]);
    expect(visits).toEqual([1, 2, 3, 0, 1, 2, 3]);
  });

  test('leaves every course that was turned within 1 cent, and course 4 within 2', () => {
    for (const course of [1, 2, 3]) {
      const held = plucks.filter((pluck) => pluck.course === course && pluck.steady).slice(1);
      expect(held).toHaveLength(2);
      for (const pluck of held) expect(Math.abs(centsOff(pluck))).toBeLessThan(1);
    }
    expect(Math.abs(centsOff(plucks.find(({ course }) => course === 0)!))).toBeLessThan(2);
  });

  test('has the same truth at a higher sample rate', () => {
    const [before] = demoRecordings(44_100);
    expect(before!.plucks).toEqual(truth.recordings[0]!.plucks);
    expect(before!.samples.length / 44_100).toBeCloseTo(truth.recordings[0]!.seconds, 3);
  });
});
