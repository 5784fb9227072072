import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { readWav } from '#shared/recording/index.ts';
import { addNoise, babble, mixAt } from '#shared/simulation/sound/index.ts';
import { hertzOfKey, sampleRateHertz, type Clip } from './clip.ts';
import { pitchOffline } from './offline.ts';

const folder = process.env['STILLSTRING_PLUCKS'] ?? fileURLToPath(new URL('../../../../shared/audio', import.meta.url));
const files = existsSync(folder) ? readdirSync(folder).filter((name) => /-[a-g]s?\d\.wav$/i.test(name)) : [];

/** Why there are no recordings to measure; null where there are. */
export const noRecordings =
  files.length > 0
    ? null
    : 'No recordings here: STILLSTRING_PLUCKS names a folder of plucks called like nylon-Gs3.wav. Their classes are left out.';

const silenceSeconds = 0.4;
const seconds = 1.6;
const ratioDecibels = 20;

/** Nominal pitch of a file named like `nylon-Gs3.wav` (s = sharp), A4 = 440 Hz. */
const nominalOf = (name: string) => {
  const [, letter = '', sharp = '', octave = ''] = /-([a-g])(s?)(\d)\.wav$/i.exec(name) ?? [];
  const semitone = [9, 11, 0, 2, 4, 5, 7]['abcdefg'.indexOf(letter.toLowerCase())] ?? Number.NaN;
  return hertzOfKey(semitone + (sharp === '' ? 0 : 1) + 12 * (Number(octave) + 1));
};

/** A recorded pluck after a silence, its truth as heard offline. */
const readPluck = (name: string): Clip => {
  const recording = readWav(readFileSync(`${folder}/${name}`));
  if ('failure' in recording) throw new Error(`${name}: ${recording.failure.sentence}`);
  const [channel = new Float32Array()] = recording.channels;
  if (recording.sampleRateHertz !== sampleRateHertz)
    throw new RangeError(`${name}: must be at ${sampleRateHertz} Hz; got ${recording.sampleRateHertz}`);
  const samples = new Float32Array(Math.round((silenceSeconds + seconds) * sampleRateHertz));
  samples.set(channel.subarray(0, Math.round(seconds * sampleRateHertz)), Math.round(silenceSeconds * sampleRateHertz));
  const loudest = samples.reduce((peak, value) => Math.max(peak, Math.abs(value)), 0);
  const pluckedAtSeconds = samples.findIndex((value) => Math.abs(value) > 0.1 * loudest) / sampleRateHertz;
  const nominalHertz = nominalOf(name);
  const truthHertz = pitchOffline(samples, { pluckedAtSeconds, nominalHertz });
  if (truthHertz === null) throw new Error(`${name}: nothing near ${nominalHertz.toFixed(1)} Hz in it`);
  return { samples, truthHertz, pluckedAtSeconds, strings: [nominalHertz], asked: 0, white: null };
};

let clean: readonly Clip[] | null = null;
const inNoise = (noisy: (samples: Float32Array, seed: number) => Float32Array) => (seeds: readonly number[]) => {
  clean ??= files.map(readPluck);
  const clips = clean;
  // Each recording at least once, then again with other noise.
  return Array.from({ length: Math.max(clips.length, seeds.length) }, (_, index) => {
    const clip = clips[index % clips.length]!;
    return { ...clip, samples: noisy(clip.samples, (seeds[0] ?? 0) + 101 * index) };
  });
};

/** The recorded plucks as they are, and in three kinds of noise 20 dB below. */
export const recordedClasses: Record<string, (seeds: readonly number[]) => Clip[]> = {
  recorded: inNoise((samples) => samples),
  'recorded, white 20 dB': inNoise((samples, seed) => addNoise(samples, { ratioDecibels, sampleRateHertz, seed })),
  'recorded, pink 20 dB': inNoise((samples, seed) => addNoise(samples, { ratioDecibels, sampleRateHertz, seed, colour: 'pink' })),
  'recorded, talk 20 dB': inNoise((samples, seed) =>
    mixAt(samples, babble({ seconds: silenceSeconds + seconds, sampleRateHertz, voices: 2, seed }), -ratioDecibels, sampleRateHertz),
  ),
};
