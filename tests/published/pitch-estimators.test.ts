// The same plucks through estimators that others wrote (Debian packages aubio-tools and praat), where they are installed.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { WaveFile } from 'wavefile';
import { pluckSound } from '#shared/simulation/sound/index.ts';
import { centsBetween, framesOf, listenTo } from '../unit/pitch/support.ts';

const installed = (command: string, args: readonly string[]) => spawnSync(command, args, { stdio: 'ignore' }).error === undefined;
const hasAubio = installed('aubiopitch', ['--help']);
const hasPraat = installed('praat', ['--version']);
if (!hasAubio) console.warn('aubiopitch (Debian: aubio-tools) is not installed: its comparison is skipped.');
if (!hasPraat) console.warn('praat (Debian: praat) is not installed: its comparison is skipped.');

const sampleRateHertz = 48_000;
const folder = mkdtempSync(join(tmpdir(), 'stillstring-pitch-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const middleOf = (values: readonly number[]) => values.toSorted((left, right) => left - right)[Math.floor(values.length / 2)] ?? Number.NaN;

/** A nearly flexible string, on which every estimator should agree, as a file and as read here. */
const pluckInFile = (hertz: number) => {
  const { samples } = pluckSound({ hertz, sampleRateHertz, seconds: 2, seed: 101, pluckedAtSeconds: 0.2, inharmonicity: 2e-6 });
  const file = join(folder, `${hertz}.wav`);
  const wave = new WaveFile();
  wave.fromScratch(
    1,
    sampleRateHertz,
    '16',
    Array.from(samples, (value) => Math.round(value * 32_767)),
  );
  writeFileSync(file, wave.toBuffer());
  const frames = framesOf(listenTo(samples)).filter((frame) => frame.atSeconds > 0.6 && frame.atSeconds < 1.6);
  return { file, hertz: middleOf(frames.map((frame) => frame.hertz)) };
};

const pitches = [146.83, 261.63, 329.63, 440];

describe.skipIf(!hasAubio)('beside aubio', () => {
  test.each(pitches)('%d Hz is the same string', (hertz) => {
    const pluck = pluckInFile(hertz);
    const { stdout } = spawnSync('aubiopitch', ['-i', pluck.file, '-p', 'yinfft', '-B', '4096', '-H', '1024'], { encoding: 'utf8' });
    const heard = stdout
      .trim()
      .split('\n')
      .map((line) => line.split(/\s+/).map(Number))
      .flatMap(([at = 0, value = 0]) => (at > 0.6 && at < 1.6 && value > 0 ? [value] : []));
    // Its spectral peaks are some cents off low down: within five it is the same pitch.
    expect(Math.abs(centsBetween(pluck.hertz, middleOf(heard)))).toBeLessThan(5);
  });
});

describe.skipIf(!hasPraat)('beside praat', () => {
  test.each(pitches)('%d Hz is the same string', (hertz) => {
    const pluck = pluckInFile(hertz);
    const script = join(folder, 'median.praat');
    writeFileSync(
      script,
      `form pitch\n sentence file\nendform\nRead from file: file$\nTo Pitch: 0, 60, 700\nmedian = Get quantile: 0.6, 1.6, 0.5, "Hertz"\nwriteInfoLine: fixed$ (median, 4)\n`,
    );
    const { stdout } = spawnSync('praat', ['--run', script, pluck.file], { encoding: 'utf8' });
    expect(Math.abs(centsBetween(pluck.hertz, Number(stdout.trim())))).toBeLessThan(2);
  });
});
