// Plucks from Debian's fluidsynth with fluid-soundfont-gm: sound that nobody here made, at a pitch bent by an exact amount.
// A sample is itself some cents off its note, and glides: every note is rendered twice, once unbent. The unbent one is measured offline
// (offline.ts); the truth of the bent one, which alone the readers hear, is that times the bend.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { readWav } from '#shared/recording/index.ts';
import { addNoise } from '#shared/simulation/sound/index.ts';
import { drawFrom, hertzOfKey, sampleRateHertz, type Clip } from './clip.ts';
import { pitchOffline } from './offline.ts';

const soundFont = '/usr/share/sounds/sf2/FluidR3_GM.sf2';

/** Why nothing is rendered here; null where it can be. */
export const noRendering =
  existsSync(soundFont) && spawnSync('fluidsynth', ['--version'], { stdio: 'ignore' }).error === undefined
    ? null
    : 'fluidsynth and fluid-soundfont-gm (Debian) are not both installed: the rendered classes are left out.';

type Note = { program: number; key: number; bentCents: number };

const slotSeconds = 3;
const clipSeconds = 1.9;
const pluckedAtSeconds = 0.4;
const bendMiddle = 8_192;
/**
 * The bend wheel at its end is 12700 cents times the sensitivity of 2 in 128 steps (SoundFont 2.04, §8.4.10), and fluidsynth cuts pitches
 * down to whole cents (as its output shows): the first bend that reaches so many gives exactly so many.
 */
const bendOfCents = (cents: number) => bendMiddle + Math.ceil((cents * bendMiddle) / ((12_700 * 2) / 128));
const ticksPerSecond = 960;

const variableLength = (value: number): number[] =>
  value < 128 ? [value] : [...variableLength(value >> 7).map((byte) => byte | 128), value & 127];
const bigEndian = (value: number) => [(value >>> 24) & 255, (value >>> 16) & 255, (value >>> 8) & 255, value & 255];

/** A Standard MIDI File, format 0, with one note to a slot. */
const midiOf = (notes: readonly Note[]): Uint8Array => {
  let at = 0;
  const track: number[] = [];
  const event = (seconds: number, ...bytes: number[]) => {
    const tick = Math.round(seconds * ticksPerSecond);
    track.push(...variableLength(tick - at), ...bytes);
    at = tick;
  };
  for (const [slot, { program, key, bentCents }] of notes.entries()) {
    const start = slot * slotSeconds;
    event(start, 0xc0, program);
    const bend = bendOfCents(bentCents);
    event(start, 0xe0, bend & 127, bend >> 7);
    event(start + pluckedAtSeconds, 0x90, key, 100);
    event(start + slotSeconds - 0.5, 0xb0, 120, 0);
  }
  event(notes.length * slotSeconds, 0xff, 0x2f, 0);
  // 480 ticks to a quarter at 120 a minute, the default tempo.
  const head = [...new TextEncoder().encode('MThd'), ...bigEndian(6), 0, 0, 0, 1, 480 >> 8, 480 & 255];
  return Uint8Array.from([...head, ...new TextEncoder().encode('MTrk'), ...bigEndian(track.length), ...track]);
};

/** The left channel of every note, dry. */
const render = (notes: readonly Note[]): Float32Array[] => {
  const folder = mkdtempSync(join(tmpdir(), 'stillstring-bench-'));
  try {
    writeFileSync(join(folder, 'notes.mid'), midiOf(notes));
    const dry = ['-R', '0', '-C', '0', '-g', '0.6', '-r', String(sampleRateHertz), '-O', 's16', '-T', 'wav'];
    const { stderr, status } = spawnSync(
      'fluidsynth',
      ['-ni', '-q', ...dry, '-F', join(folder, 'notes.wav'), soundFont, join(folder, 'notes.mid')],
      { encoding: 'utf8' },
    );
    if (status !== 0) throw new Error(`fluidsynth ended with ${status}: ${stderr}`);
    const sound = readWav(readFileSync(join(folder, 'notes.wav')));
    if ('failure' in sound) throw new Error(sound.failure.sentence);
    const [left = new Float32Array()] = sound.channels;
    return notes.map((_, slot) => left.slice(slot * slotSeconds * sampleRateHertz, (slot * slotSeconds + clipSeconds) * sampleRateHertz));
  } finally {
    rmSync(folder, { recursive: true });
  }
};

const clipsOf =
  (program: number, keys: readonly number[]) =>
  (seeds: readonly number[]): Clip[] => {
    const wanted = seeds.map((seed) => {
      const draw = drawFrom(seed);
      return { seed, program, key: draw.pick(keys), bentCents: Math.round(draw.uniform(-60, 60)) };
    });
    const sounds = render(wanted.flatMap((note) => [note, { ...note, bentCents: 0 }]));
    return wanted.map(({ seed, key, bentCents }, index) => {
      const [bent = new Float32Array(), unbent = bent] = sounds.slice(2 * index);
      const itself = pitchOffline(unbent, { pluckedAtSeconds, nominalHertz: hertzOfKey(key) });
      if (itself === null) throw new Error(`nothing heard at key ${key} of program ${program}`);
      const ratio = 2 ** (bentCents / 1200);
      return {
        samples: addNoise(bent, { ratioDecibels: 50, sampleRateHertz, seed }),
        truthHertz: (atSeconds) => ratio * itself(atSeconds),
        pluckedAtSeconds,
        strings: keys.map(hertzOfKey),
        asked: keys.indexOf(key),
        white: null,
      };
    });
  };

/** General MIDI's nylon guitar, steel guitar and harp, at the open strings of guitars, a ukulele and a small harp, in a quiet room (50 dB). */
export const renderedClasses: Record<string, (seeds: readonly number[]) => Clip[]> = {
  'rendered nylon': clipsOf(24, [45, 50, 55, 60, 64, 67, 69]),
  'rendered steel': clipsOf(25, [40, 45, 50, 55, 59, 64]),
  'rendered harp': clipsOf(46, [55, 60, 62, 64, 67, 69, 72]),
};
