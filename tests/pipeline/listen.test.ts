import { spawnSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { writeWav } from '#shared/recording/index.ts';
import { noise } from '#shared/simulation/sound/index.ts';
import type { Report } from '../../src-main/listen/run.ts';
import { lastSteady, recordingPath, truthOf } from '../support/demo.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const tenor = ['--instrument', 'ukulele-tenor-high-g'];

function listen(...words: readonly string[]) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [join(root, 'src-main/listen.ts'), ...words], {
    cwd: root,
    encoding: 'utf8',
  });
  return { status, stdout, stderr };
}

function report(file: string, tuning: string): { readonly status: number | null; readonly report: Report } {
  const { status, stdout } = listen(recordingPath(file), ...tenor, '--tuning', tuning, '--json');
  return { status, report: JSON.parse(stdout) as Report };
}

const centsOff = (heard: number | null, truth: number): number => Math.abs(1200 * Math.log2((heard ?? Number.NaN) / truth));

/** How far a course was turned in the recording: from where it was first plucked to where it rested at last before the re-check. */
function turned(course: number): number {
  const plucks = truthOf('wren-retune.wav').plucks.filter((pluck) => pluck.course === course);
  const [first, last] = [plucks[0], plucks.at(-2)];
  return 1200 * Math.log2((last?.hertz ?? Number.NaN) / (first?.hertz ?? Number.NaN));
}

describe('a recording of a whole retune, from samples to verdicts without a window', () => {
  const { status, report: retune } = report('wren-retune.wav', 'G4 Bb3 Eb4 Bb4');
  const truth = lastSteady(truthOf('wren-retune.wav').plucks);

  test('every course is found within a cent of its true pitch, and the command is content', () => {
    expect(status).toBe(0);
    expect(retune.courses).toHaveLength(4);
    for (const [course, { hertz }] of truth) expect(centsOff(retune.courses[course]?.hertz ?? null, hertz)).toBeLessThan(1);
  });

  test('the log holds a turn for each of the three moves, by as much as the string moved', () => {
    const [first, second, third] = retune.log.turns;
    expect(retune.log.turns.map(({ course }) => course)).toEqual([1, 2, 3]);
    expect(first?.cents).toBeCloseTo(turned(1), 0);
    expect(second?.cents).toBeCloseTo(turned(2), 0);
    expect(third?.cents).toBeCloseTo(turned(3), 0);
  });

  test('every reading in the log lies within a cent of the true pitch of its last pluck', () => {
    for (const [course, { hertz }] of truth) {
      const last = retune.log.readings.findLast((reading) => reading.course === course);
      expect(centsOff(last?.hertz ?? null, hertz)).toBeLessThan(1);
    }
  });

  test('lowered strings are expected to creep sharp, the raised one flat; the one that stayed holds', () => {
    const [stayed, lowered, loweredLess, raised] = retune.courses;
    expect(stayed?.verdict).toBe('holding');
    expect(lowered?.driftCents).toBeGreaterThan(1);
    expect(loweredLess?.driftCents).toBeGreaterThan(0.5);
    expect(raised?.driftCents).toBeLessThan(-0.5);
  });
});

describe('a recording of open strings', () => {
  test.each([
    ['wren-before.wav', 'G4 C4 E4 A4'],
    ['wren-after.wav', 'G4 Bb3 Eb4 Bb4'],
  ])('%s is read within a cent, and a string out of tolerance makes the command say so', (file, tuning) => {
    const { status, report: heard } = report(file, tuning);
    expect(status).toBe(1);
    for (const [course, { hertz }] of lastSteady(truthOf(file).plucks))
      expect(centsOff(heard.courses[course]?.hertz ?? null, hertz)).toBeLessThan(1);
  });
});

describe('what cannot be listened to is refused with a sentence and a code of its own', () => {
  const folder = mkdtempSync(join(tmpdir(), 'stillstring-listen-'));
  const write = (name: string, bytes: Uint8Array): string => {
    writeFileSync(join(folder, name), bytes);
    return join(folder, name);
  };
  const sampleRateHertz = 16_000;
  const samples = (amplitude: number) => noise({ length: sampleRateHertz * 2, seed: 1 }).map((sample) => sample * amplitude);
  const silence = write('silence.wav', writeWav({ sampleRateHertz, channels: [samples(0)] }, 'float32'));
  const hiss = write('hiss.wav', writeWav({ sampleRateHertz, channels: [samples(0.001)] }, 'float32'));
  const notWav = write('letter.wav', new TextEncoder().encode('Dear luthier, the bridge has lifted.'));
  const known = [...tenor, '--tuning', 'Open C'];

  test.each([
    ['no file named', [], 2, 'Name a recording'],
    ['no instrument', [silence], 2, 'which instrument'],
    ['an unknown instrument', [silence, '--instrument', 'trombone', '--tuning', 'Home'], 2, 'no instrument “trombone”'],
    ['no tuning', [silence, ...tenor], 2, 'which tuning'],
    ['a tuning that is none', [silence, ...tenor, '--tuning', 'Opn C'], 2, '“Opn” is no pitch'],
    ['too few pitches', [silence, ...tenor, '--tuning', 'G4 C4 E4'], 2, 'has 4 strings'],
    ['a tolerance that is none', [silence, ...known, '--tolerance', 'wide'], 2, '--tolerance is a number'],
    ['an option that does not exist', [silence, ...known, '--loud'], 2, '--loud'],
    ['a file that is not there', [join(folder, 'nowhere.wav'), ...known], 3, 'There is no file'],
    ['a file that is no recording', [notWav, ...known], 3, 'letter.wav'],
    ['silence', [silence, ...known], 4, 'No string is to be heard'],
    ['hiss alone', [hiss, ...known], 4, 'No string is to be heard'],
  ] as const)('%s', (_, words, code, sentence) => {
    const { status, stderr } = listen(...words);
    expect(stderr).toContain(sentence);
    expect(status).toBe(code);
  });
});
