import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { expect } from 'playwright/test';
import { lastSteady, recordingPath, truthOf } from '../support/demo.ts';
import { test } from './app.ts';

test('a quick check from a recording puts one reading a string into the log, within half a cent of the truth', async ({
  app,
  page,
  dataFolder,
}) => {
  await page.getByRole('button', { name: 'Look around with the demo library' }).click();
  await expect(page.getByText('Finch').first()).toBeVisible();
  const startedAt = Date.now();
  await page.locator('input[type=file][accept*=wav]').setInputFiles(recordingPath('wren-before.wav'));
  await page.evaluate(() => {
    location.hash = '#/settling?on=demo-wren';
  });
  await page.getByRole('button', { name: 'Check the strings' }).click();
  await expect(page.getByText('All courses heard.')).toBeVisible({ timeout: 30_000 });
  await page.getByRole('button', { name: 'Done' }).click();
  await expect(page.getByRole('button', { name: 'Check the strings' })).toBeVisible();

  await app.close();
  const library = new DatabaseSync(join(dataFolder, 'library.sqlite'), { readOnly: true });
  const rows = library.prepare('select course, hertz, source from readings where at >= ? order by at').all(startedAt) as {
    course: number;
    hertz: number;
    source: string;
  }[];
  library.close();
  expect(rows.map(({ course }) => course)).toEqual([0, 1, 2, 3]);
  for (const [course, { hertz }] of lastSteady(truthOf('wren-before.wav').plucks)) {
    const row = rows.find((one) => one.course === course);
    expect(Math.abs(1200 * Math.log2((row?.hertz ?? Number.NaN) / hertz)), `course ${course}`).toBeLessThan(0.5);
  }
});

test('a touch-up is one key from anywhere: the tuning it is in, whichever course is plucked', async ({ page }) => {
  await page.getByRole('button', { name: 'Look around with the demo library' }).click();
  await expect(page.getByText('Finch').first()).toBeVisible();
  await page.locator('input[type=file][accept*=wav]').setInputFiles(recordingPath('wren-before.wav'));
  await page.evaluate(() => {
    location.hash = '#/tunings?on=demo-wren';
  });
  await expect(page.getByText('Wren is here')).toBeVisible();
  await page.keyboard.press('t');
  await expect(page.getByRole('radio', { name: 'Any course' })).toBeChecked();
  // The recording's course 1 is more than 4 cents flat: it is the one that is left to turn.
  await expect(page.getByText('tighten', { exact: true })).toBeVisible({ timeout: 20_000 });
});
