// Recorded plucks that nobody here made (CC0), read against pitchy on long stretches. The folder is not part of the repository.
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { PitchDetector } from 'pitchy';
import { describe, expect, test } from 'vitest';
import { WaveFile } from 'wavefile';
import { centsBetween, framesOf, listenTo } from '../unit/pitch/support.ts';

const folder = process.env['STILLSTRING_PLUCKS'] ?? fileURLToPath(new URL('../../../shared/audio', import.meta.url));
const files = existsSync(folder) ? readdirSync(folder).filter((name) => name.endsWith('.wav')) : [];
/** Where there are none, one skipped test says what was left out. */
const named = files.length === 0 ? ['no recordings here: STILLSTRING_PLUCKS names a folder of them'] : files;

/** Nominal pitch of a file named like `nylon-Gs3.wav` (s = sharp), A4 = 440 Hz. */
const hertzOfName = (name: string) => {
  const [, letter = '', sharp = '', octave = ''] = /-([a-g])(s?)(\d)\.wav$/i.exec(name) ?? [];
  const semitone = [9, 11, 0, 2, 4, 5, 7]['abcdefg'.indexOf(letter.toLowerCase())] ?? Number.NaN;
  return 440 * 2 ** ((semitone + (sharp === '' ? 0 : 1) + 12 * (Number(octave) + 1) - 69) / 12);
};

const middleOf = (values: readonly number[]) => values.toSorted((left, right) => left - right)[Math.floor(values.length / 2)] ?? Number.NaN;

const readPluck = (name: string) => {
  const wave = new WaveFile(readFileSync(`${folder}/${name}`));
  const { sampleRate } = wave.fmt as { sampleRate: number };
  const samples = Float32Array.from(wave.getSamples(true) as unknown as ArrayLike<number>, (value) => value / 32_768);
  const silence = new Float32Array(sampleRate * 0.3);
  return { sampleRateHertz: sampleRate, samples: Float32Array.of(...silence, ...samples.subarray(0, 2 * sampleRate)) };
};

/** pitchy over stretches of 8192 samples between 0.8 and 1.6 s; the middle of its clear readings. */
const secondOpinion = (samples: Float32Array, sampleRateHertz: number) => {
  const detector = PitchDetector.forFloat32Array(8_192);
  const readings: number[] = [];
  for (let start = Math.round(0.8 * sampleRateHertz); start < 1.6 * sampleRateHertz; start += 2_048) {
    const [hertz, clarity] = detector.findPitch(samples.subarray(start, start + 8_192), sampleRateHertz);
    if (clarity > 0.9) readings.push(hertz);
  }
  return middleOf(readings);
};

describe.skipIf(files.length === 0)('a recorded pluck', () => {
  test.each(named)('%s: reads the same pitch throughout, and what pitchy reads of it to a few cents', (name) => {
    const { samples, sampleRateHertz } = readPluck(name);
    const frames = framesOf(listenTo(samples, { sampleRateHertz })).filter((frame) => frame.atSeconds > 0.7);
    expect(frames.length).toBeGreaterThan(25);
    const middle = middleOf(frames.map((frame) => frame.hertz));
    const near = frames.filter((frame) => Math.abs(centsBetween(frame.hertz, middle)) < 3);
    expect(near.length / frames.length).toBeGreaterThan(0.9);
    // pitchy averages the stretched partials in, and a body resonance may pull the first one away: it is no better than a few cents.
    // Where its octave is wrong (the first partial of one of the recordings dies early), its pitch still counts.
    const apart = centsBetween(middle, secondOpinion(samples, sampleRateHertz));
    expect(Math.abs(apart - 1200 * Math.round(apart / 1200))).toBeLessThan(6);
    expect(Math.abs(centsBetween(middle, hertzOfName(name)))).toBeLessThan(60);
  });
});
