import { AxeBuilder } from '@axe-core/playwright';
import { expect, type Page } from 'playwright/test';
import { test } from './app.ts';
import { makeNoise, play, playMicrophone, pluck, plugIn, refuse, strum, unplug } from './played-microphone.ts';

const title = (page: Page) => page.getByRole('heading', { level: 1 });

/** Goes to a part of the app by its address. */
const go = (page: Page, address: string) =>
  page.evaluate((to) => {
    location.hash = to;
  }, address);

/**
 * What the accessibility rules say against the page as it is, header and all, in words that name the place: every rule on dark, and the one that a
 * theme can break on light.
 */
async function faults(page: Page): Promise<readonly string[]> {
  await page.emulateMedia({ colorScheme: 'dark', reducedMotion: 'reduce' });
  const dark = await new AxeBuilder({ page }).analyze();
  await page.emulateMedia({ colorScheme: 'light', reducedMotion: 'reduce' });
  const light = await new AxeBuilder({ page }).withRules(['color-contrast']).analyze();
  return [...dark.violations, ...light.violations].map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`);
}

test('every state of a retune passes the accessibility rules in both themes and is reached by keys', async ({ page }) => {
  test.setTimeout(240_000);
  await go(page, '#/retune');
  await expect(title(page)).toHaveText('Which instrument is in your hands?');
  expect.soft(await faults(page), 'no instrument yet').toEqual([]);
  await go(page, '#/instruments');
  await page.getByRole('button', { name: 'Look around with the demo library' }).click();
  await expect(page.getByText('Finch').first()).toBeVisible();
  await playMicrophone(page);

  await go(page, '#/retune?on=demo-wren&to=demo-sextons-drone');
  await expect(title(page)).toHaveText('Sexton’s drone', { timeout: 20_000 });
  await page.keyboard.press('Space');
  const asked = page.getByRole('dialog');
  await expect(asked.getByRole('heading', { name: 'Course 1 comes close to breaking' })).toBeVisible();
  expect.soft(await faults(page), 'the confirmation before a string comes close to breaking').toEqual([]);
  await page.keyboard.press('Escape');
  await expect(asked).toHaveCount(0);
  expect.soft(await faults(page), 'the plan').toEqual([]);
  await page.keyboard.press('Space');
  await page.getByRole('button', { name: 'Only course 2' }).press('Enter');
  await expect(title(page)).toHaveText('Retune Wren to Sexton’s drone without course 1');
  await expect(page.getByText('2 pluck', { exact: true })).toBeVisible();
  await expect(page.getByRole('listitem').filter({ hasText: 'A4' })).toContainText('stays');
  await page.keyboard.press('Escape');

  await go(page, '#/retune?on=demo-wren&to=demo-lantern-e-flat');
  await expect(title(page)).toHaveText('Lantern E♭', { timeout: 20_000 });
  // A switch that has the focus takes Space for itself and leaves every other key to the page.
  await page.getByRole('switch', { name: 'straight' }).press('Space');
  await expect(page.getByRole('switch', { name: 'below first' })).toBeFocused();
  await page.keyboard.press('Space');
  await refuse(page);
  await page.keyboard.press('PageDown');
  await expect(page.getByText('The microphone is not allowed here.', { exact: false }).first()).toBeVisible();
  await expect(page.getByText('3 waiting', { exact: true })).toBeVisible();
  expect.soft(await faults(page), 'a microphone that is not allowed').toEqual([]);
  await plugIn(page);
  await page.getByRole('button', { name: 'Try again' }).press('Enter');
  await expect(page.getByText('3 pluck', { exact: true })).toBeVisible();
  await page.keyboard.press('r');
  await expect(page.getByText('it may be anywhere')).toBeVisible();
  await expect(page.getByText('Taken for a new string.')).toBeVisible();
  expect.soft(await faults(page), 'a string that is taken for a new one').toEqual([]);
  await page.keyboard.press('f');
  await expect(page.getByText('then 2 loosen, E4 → E♭4')).toBeVisible();
  expect.soft(await faults(page), 'the far view').toEqual([]);
  await page.keyboard.press('Escape');
  await page.getByRole('button', { name: 'More' }).press('Enter');
  await expect(page.getByRole('menu', { name: 'More' })).toBeVisible();
  expect.soft(await faults(page), 'the menu').toEqual([]);
  await page.keyboard.press('Escape');
  await page.keyboard.press('Escape');

  await go(page, '#/retune?on=demo-wren&to=demo-home');
  await expect(title(page)).toHaveText('Home', { timeout: 20_000 });
  await page.keyboard.press('Space');
  await expect(page.getByText('Strum all strings', { exact: true })).toBeVisible();
  expect.soft(await faults(page), 'a strum that is waited for').toEqual([]);
  // A machine that loses some of the sound asks for another strum.
  await expect(async () => {
    await strum(page, [392.4, 261.5, 327.7, 440.3]);
    await expect(page.getByText(/in one strum at/u)).toBeVisible({ timeout: 2500 });
  }).toPass({ timeout: 40_000 });
  expect.soft(await faults(page), 'what a strum told').toEqual([]);
  await page.keyboard.press('s');
  await expect(page.getByText('Strum all strings', { exact: true })).toBeVisible();
  await page.keyboard.press('PageDown');
  await expect(title(page)).toHaveText('Wren is in Home');
  expect.soft(await faults(page), 'done').toEqual([]);
  await page.keyboard.press('f');
  await expect(title(page)).toHaveText('The 12th fret of Wren');
  expect.soft(await faults(page), 'the fret check').toEqual([]);
  await page.keyboard.press('Escape');
  await go(page, '#/retune?on=demo-wren&open=which');
  await expect(title(page)).toHaveText('What is Wren in?');
  expect.soft(await faults(page), 'what am I in').toEqual([]);
});

/** A pluck of one string by itself, in silence after. */
async function pluckOnce(page: Page, hertz: number): Promise<void> {
  await pluck(page, hertz);
  await page.waitForTimeout(500);
  await play(page, hertz, 0);
}

test('a noisy room, an input that is gone, and what comes after a retune are shown within the rules', async ({ page }) => {
  test.setTimeout(240_000);
  await page.getByRole('button', { name: 'Look around with the demo library' }).click();
  await expect(page.getByText('Finch').first()).toBeVisible();
  await playMicrophone(page);
  const input = page.getByRole('banner').getByRole('button', { name: /^Input:/u });

  await go(page, '#/retune?on=demo-wren&to=demo-lantern-e-flat');
  await expect(title(page)).toHaveText('Lantern E♭', { timeout: 20_000 });
  await page.keyboard.press('Space');
  await expect(page.getByText('3 pluck', { exact: true })).toBeVisible();
  await expect(input).toHaveText(/^quiet/u);
  await makeNoise(page, 0.05);
  await expect(input).toHaveText(/^noisy/u, { timeout: 20_000 });
  expect.soft(await faults(page), 'a noisy room').toEqual([]);
  await makeNoise(page, 0);
  await expect(input).toHaveText(/^quiet/u, { timeout: 20_000 });
  await unplug(page);
  await expect(page.getByText('3 waiting', { exact: true })).toBeVisible();
  await page.keyboard.press('f');
  await expect(page.getByText('nothing heard').first()).toBeVisible();
  expect.soft(await faults(page), 'an input that is gone, from afar').toEqual([]);
  await page.keyboard.press('Escape');
  expect.soft(await faults(page), 'an input that is gone').toEqual([]);
  await plugIn(page);
  await expect(page.getByText('3 pluck', { exact: true })).toBeVisible();

  // Every course is left as it is, and so is the strum.
  for (const next of ['2 pluck', '1 pluck', 'Strum all strings', 'Wren is']) {
    await page.keyboard.press('PageDown');
    await expect(page.getByText(next, { exact: next !== 'Wren is' }).first()).toBeVisible();
  }
  await expect(page.getByRole('listitem').filter({ hasText: 'left as it is' })).not.toHaveCount(0);
  expect.soft(await faults(page), 'done with every course left').toEqual([]);
  await page.keyboard.press('f');
  await expect(page.getByText('Course 4: pluck it open.')).toBeVisible();
  await expect(async () => {
    await pluckOnce(page, 392);
    await pluckOnce(page, 787.6);
    await expect(page.getByText(/^\d+(\.\d)? c sharp$/u)).toBeVisible({ timeout: 1000 });
  }).toPass({ timeout: 40_000 });
  expect.soft(await faults(page), 'a reading of the fret check').toEqual([]);

  await page.keyboard.press('Escape');
  await go(page, '#/retune?on=demo-wren&open=which');
  await expect(title(page)).toHaveText('What is Wren in?');
  await expect(async () => {
    for (const hertz of [392, 261.6, 329.6, 440]) await pluckOnce(page, hertz);
    await expect(page.getByRole('button', { name: /^It is in Home/u })).toBeVisible({ timeout: 1000 });
  }).toPass({ timeout: 60_000 });
  expect.soft(await faults(page), 'the nearest tunings').toEqual([]);
});
