import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { expect, type Page } from 'playwright/test';
import { writeWav } from '#shared/recording/index.ts';
import { demoRecordings } from '../../demo-data/recordings.ts';
import { electronPath } from '../support/electron-path.ts';
import { hosts, test } from './app.ts';

/** Chromium's fake device runs at 44.1 kHz; a float recording at that rate arrives bit for bit. */
const rate = 44_100;
const retune = demoRecordings(rate).find(({ file }) => file === 'wren-retune.wav');
if (retune === undefined) throw new Error('the demo has no recording of a retune');
const microphone = join(mkdtempSync(join(tmpdir(), 'stillstring-microphone-')), 'retune.wav');
// The fake device loses up to 80 ms of a file's head and repeats its last moments for ever: half a second of silence at both ends.
const pause = new Float32Array(rate / 2);
// The last four plucks, each course once more, are played as one strum. The fake device drops bits of the sound on a busy machine: for a course that the strum
// did not tell they follow one by one, for the pluck that the coach asks for then.
const again = retune.plucks.slice(-4);
const turned = retune.samples.slice(0, sampleAt(again[0]?.atSeconds ?? 0));
const plucked = retune.samples.slice(turned.length);
writeFileSync(
  microphone,
  writeWav({ sampleRateHertz: rate, channels: [joined(pause, turned, pause, strumOf(again), pause, plucked, pause)] }, 'float32'),
);

function sampleAt(seconds: number): number {
  return Math.round(seconds * rate);
}

/** Plucks of the recording on top of one another, a hundredth of a second apart. */
function strumOf(plucks: readonly { readonly atSeconds: number; readonly untilSeconds: number }[]): Float32Array {
  const clips = plucks.map(({ atSeconds, untilSeconds }) => retune?.samples.slice(sampleAt(atSeconds), sampleAt(untilSeconds)) ?? pause);
  const strum = new Float32Array(Math.max(...clips.map(({ length }) => length)) + rate / 10);
  for (const [index, clip] of clips.entries())
    for (const [at, value] of clip.entries()) {
      const place = at + sampleAt(0.01 * index);
      strum[place] = (strum[place] ?? 0) + value / 2;
    }
  return strum;
}

function joined(...parts: readonly Float32Array[]): Float32Array {
  const whole = new Float32Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}

for (const host of hosts) {
  test.describe(`on the ${host}`, () => {
    test.use({ host, microphone });
    test.skip(host === 'electron' && electronPath() === null, 'Electron’s binary is not on this machine');

    test('a player retunes a tenor through the microphone by keyboard alone, from the plan to rows in the library', async ({
      app,
      page,
      dataFolder,
    }) => {
      await tabTo(page, 'Look around with the demo library');
      await page.keyboard.press('Enter');
      await expect(page.getByText('Wren').first()).toBeVisible();
      await find(page, 'Wren', /tenor/u);
      await expect(page).toHaveURL(/on=demo-wren/u);
      // The address comes first, the instrument in hand a moment later.
      await expect(page.getByRole('button', { name: /^Wren, / })).toBeVisible();
      await find(page, 'Lantern', /Lantern E♭/u);
      await expect(page.getByRole('heading', { level: 1 })).toHaveText('Lantern E♭');
      await expect(page.getByText('first: loosen 2 semitones')).toBeVisible();
      await page.keyboard.press('Space');
      await expect(page.getByText('loosen', { exact: true })).toBeVisible();
      await expect(page.getByText('Strum all strings', { exact: true })).toBeVisible({ timeout: 60_000 });
      await expect(page.getByRole('heading', { level: 1, name: 'Wren is in Lantern E♭' })).toBeVisible({ timeout: 90_000 });
      await expect(page.getByText('Every reading is in the log.', { exact: false })).toBeVisible();

      // Lowered by a tone, course 3 creeps sharp by a few cents; where it will be is told from its new pitch.
      await expect(page.getByText(/^about [2-9] c sharp by \d\d:\d\d$/u).first()).toBeVisible({ timeout: 20_000 });
      await expect(page.getByText(/about \d{2,} c (sharp|flat)/u)).toHaveCount(0);
      await expect(page.getByText('not heard since', { exact: false })).toHaveCount(0);

      await page.keyboard.press('Enter');
      await expect(page).toHaveURL(/settling/u);
      await expect(page.getByRole('heading', { level: 1 })).toBeVisible();

      // The host holds the library alone while it runs.
      await app.close();
      const rows = readRows(join(dataFolder, 'library.sqlite'));
      expect(rows.instrumentTuning).toBe('demo-lantern-e-flat');
      const strummed = rows.readings.findIndex(({ source }) => source === 'strum');
      expect(strummed).toBeGreaterThanOrEqual(0);
      expect([...new Set(rows.readings.slice(strummed).map(({ course }) => course))].toSorted((a, b) => a - b)).toEqual([0, 1, 2, 3]);
      expect(rows.turns.map(({ course }) => course)).toEqual([1, 2, 3]);
      for (const [course, truth] of lastSteadyHertz()) {
        const reading = rows.readings.findLast((row) => row.course === course);
        expect(Math.abs(1200 * Math.log2((reading?.hertz ?? Number.NaN) / truth)), `course ${course}`).toBeLessThan(1);
      }
    });
  });
}

/** Goes on with Tab until a button has the focus. */
async function tabTo(page: Page, name: string): Promise<void> {
  const button = page.getByRole('button', { name });
  await expect(button).toBeVisible();
  for (let step = 0; step < 40; step += 1) {
    if (await button.evaluate((element) => element === document.activeElement)) return;
    await page.keyboard.press('Tab');
  }
  throw new Error(`${name} cannot be reached with Tab`);
}

/** Finds something by name with Ctrl and K, and goes there. */
async function find(page: Page, words: string, found: RegExp): Promise<void> {
  await page.keyboard.press('Control+k');
  await page.keyboard.type(words);
  await expect(page.getByRole('menuitem', { name: found }).first()).toBeVisible();
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Enter');
}

const lastSteadyHertz = (): ReadonlyMap<number, number> =>
  new Map((retune?.plucks ?? []).filter(({ steady }) => steady).map(({ course, hertz }) => [course, hertz]));

/** What the latest retune left in the library's file. */
function readRows(file: string) {
  const library = new DatabaseSync(file, { readOnly: true });
  const retuneId = library.prepare('select id from retunes where finishedAt is not null order by startedAt desc limit 1').get()?.[
    'id'
  ] as string;
  const rows = {
    instrumentTuning: library.prepare("select tuningId from instruments where id = 'demo-wren'").get()?.['tuningId'],
    turns: library.prepare('select course, cents from turns where retuneId = ? order by at').all(retuneId) as {
      course: number;
      cents: number;
    }[],
    readings: library.prepare('select course, string, hertz, source from readings where retuneId = ? order by at').all(retuneId) as {
      course: number;
      hertz: number;
      source: string;
    }[],
  };
  library.close();
  return rows;
}
