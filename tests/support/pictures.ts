// Makes the README's pictures from the demo library: `npm run pictures`, after a build. The clock on them is the time of making.

import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright';
import { openDesk } from '../e2e/app.ts';
import { chromiumArguments, chromiumPath } from './chromium.ts';

const recording = fileURLToPath(new URL('../../demo-data/recordings/wren-retune.wav', import.meta.url));
const pictures = fileURLToPath(new URL('../../.readme/', import.meta.url));
const shots = [
  { name: 'retune-dark', colorScheme: 'dark', address: '/retune?on=demo-wren&to=demo-lantern-e-flat', secondsOfListening: 3.2 },
  { name: 'settling-light', colorScheme: 'light', address: '/settling?on=demo-rook', secondsOfListening: null },
  { name: 'tunings-dark', colorScheme: 'dark', address: '/tunings?on=demo-wren', secondsOfListening: null },
  { name: 'instruments-light', colorScheme: 'light', address: '/instruments?on=demo-wren', secondsOfListening: null },
] as const;

const executablePath = chromiumPath();
if (executablePath === null) throw new Error('There is no Chromium on this machine.');
mkdirSync(pictures, { recursive: true });
const folder = mkdtempSync(join(tmpdir(), 'stillstring-pictures-'));
const browser = await chromium.launch({ executablePath, args: [...chromiumArguments(null)] });
for (const { name, colorScheme, address, secondsOfListening } of shots) {
  const desk = await openDesk(folder, '--demo');
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 }, colorScheme });
  await page.goto(desk.address);
  await page.getByRole('heading', { level: 1 }).waitFor();
  await page.evaluate((hash) => {
    location.hash = hash;
  }, address);
  await page.waitForTimeout(3000);
  if (secondsOfListening !== null) {
    await page.locator('input[type=file][accept*=wav]').setInputFiles(recording);
    await page.waitForTimeout(500);
    await page.keyboard.press('Space');
    await page.waitForTimeout(secondsOfListening * 1000);
  }
  await page.screenshot({ path: join(pictures, `${name}.png`) });
  await page.close();
  await desk.close();
}
await browser.close();
rmSync(folder, { recursive: true, force: true });
