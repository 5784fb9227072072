// Start of the desk, from the command to the first usable screen in Chromium; printed, never asserted.
// Two libraries: an empty one and the demo library with its year of readings.

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from 'playwright';
import { openDesk } from '../e2e/app.ts';
import { chromiumArguments, chromiumPath } from '../support/chromium.ts';

const runs = 5;

async function once(folder: string, words: readonly string[]): Promise<{ readonly desk: number; readonly screen: number }> {
  const started = performance.now();
  const desk = await openDesk(folder, ...words);
  const ready = performance.now();
  const executablePath = chromiumPath();
  if (executablePath === null) throw new Error('There is no Chromium on this machine.');
  const browser = await chromium.launch({ executablePath, args: [...chromiumArguments(null)] });
  const page = await browser.newPage();
  const opened = performance.now();
  await page.goto(desk.address);
  await page.getByRole('heading', { level: 1 }).waitFor();
  const screen = performance.now() - opened;
  await browser.close();
  await desk.close();
  return { desk: ready - started, screen };
}

const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;

for (const [name, words] of [
  ['empty library', []],
  ['demo library', ['--demo']],
] as const) {
  const folder = mkdtempSync(join(tmpdir(), 'stillstring-start-'));
  await once(folder, words);
  const times: { readonly desk: number; readonly screen: number }[] = [];
  for (let run = 0; run < runs; run += 1) times.push(await once(folder, words));
  rmSync(folder, { recursive: true, force: true });
  const [desk, screen] = [median(times.map((time) => time.desk)), median(times.map((time) => time.screen))];
  console.log(
    `${name}: desk ready after ${desk.toFixed(0)} ms, first usable screen ${screen.toFixed(0)} ms later, ${(desk + screen).toFixed(0)} ms together (median of ${runs}; the browser’s own start left out)`,
  );
}
