import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { chromium, expect, type Page } from 'playwright/test';
import { chromiumArguments, chromiumPath } from '../support/chromium.ts';
import { openDesk, test as base } from './app.ts';

/** The demo, with strings on the screen to be plucked and turned. */
const test = base.extend<{ demo: { readonly page: Page; readonly close: () => Promise<void> } }>({
  demo: async ({ dataFolder }, use) => {
    const desk = await openDesk(dataFolder, '--demo');
    const browser = await chromium.launch({ executablePath: chromiumPath() ?? '', args: [...chromiumArguments(null)] });
    const page = await (await browser.newContext({ viewport: { width: 1280, height: 800 } })).newPage();
    await page.goto(desk.address);
    await expect(page.getByText('Wren').first()).toBeVisible({ timeout: 20_000 });
    const close = async () => {
      await browser.close();
      await desk.close();
    };
    await use({ page, close });
    await close();
  },
});

const pluck = (page: Page, course: number) => page.getByRole('button', { name: `Pluck course ${course}` }).click();
const heading = (page: Page) => page.getByRole('heading', { level: 1 });

/** Goes to a part of the app by its address. */
const go = (page: Page, address: string) =>
  page.evaluate((to) => {
    location.hash = to;
  }, address);

/** Holds a peg of the course that was plucked last for so long. */
async function turn(page: Page, key: 'ArrowUp' | 'ArrowDown', milliseconds: number): Promise<void> {
  await page.keyboard.down(key);
  await page.waitForTimeout(milliseconds);
  await page.keyboard.up(key);
}

test('one strum of all strings after the retune names the courses to touch, and its readings are in the log', async ({
  demo,
  dataFolder,
}) => {
  const { page } = demo;
  await go(page, '#/retune?on=demo-wren&to=demo-home');
  await expect(heading(page)).toHaveText('Home', { timeout: 20_000 });
  await page.keyboard.press('Space');
  await expect(heading(page)).toHaveText('Retune Wren to Home');
  // Wren holds: there is nothing to turn, and all strings are asked for at once. Course 2 is drawn off unseen, and draws at the others; alone it is no strum.
  await expect(page.getByText('Strum all strings', { exact: true })).toBeVisible();
  await pluck(page, 2);
  await turn(page, 'ArrowDown', 800);
  await expect(page.getByText('That was not all of them.', { exact: false })).toBeVisible({ timeout: 15_000 });
  await page.waitForTimeout(1500);
  await page.getByRole('button', { name: 'all', exact: true }).click();
  await expect(page.getByRole('status').first()).toContainText(/ourse 2: tighten \d/u, { timeout: 15_000 });
  await expect(page.getByText(/1: leave (them|it)\.$/u).last()).toBeVisible();
  await expect(page.getByText(/^All 4 courses heard in one strum at \d\d:\d\d\.$/u)).toBeVisible();

  await page.getByRole('button', { name: /^(Loosen|Tighten) course \d/u }).click();
  await expect(page.getByText(/^[1-4] pluck$/u)).toBeVisible();
  await page.keyboard.press('s');
  await expect(page.getByText('Strum all strings', { exact: true })).toBeVisible();
  await page.keyboard.press('PageDown');
  await expect(heading(page)).toHaveText('Wren is in Home');

  await demo.close();
  const library = new DatabaseSync(join(dataFolder, 'demo', 'library.sqlite'), { readOnly: true });
  const rows = library.prepare("select course from readings where source = 'strum' order by at, course").all();
  library.close();
  expect(rows.map(({ course }) => course)).toEqual([0, 1, 2, 3]);
});

test('“What am I in?”: every course plucked in any order names the tuning, takes the instrument to be in it, and that can be undone', async ({
  demo,
}) => {
  const { page } = demo;
  await go(page, '#/retune?on=demo-wren&to=demo-lantern-e-flat');
  await expect(heading(page)).toHaveText('Lantern E♭', { timeout: 20_000 });
  await page.keyboard.press('w');
  await expect(heading(page)).toHaveText('What is Wren in?');
  const play = async (courses: readonly number[]) => {
    for (const course of courses) {
      await pluck(page, course);
      await page.waitForTimeout(1300);
    }
  };
  await play([3, 1, 4, 2]);
  await expect(page.locator('output').filter({ hasText: 'It is in Home' })).toBeVisible();

  // A machine that is slow turns the peg slowly: somewhere between half a semitone and a tone lower.
  await pluck(page, 3);
  await turn(page, 'ArrowDown', 3100);
  await page.keyboard.press('z');
  await expect(page.getByText('Pluck every course once, open, in any order.')).toBeVisible();
  await play([2, 3, 4, 1]);
  const row = page.getByRole('listitem').filter({ hasText: 'G4 C4 E4 A4' });
  await expect(row).toContainText(/tighten 3 (about )?(half a|a|two thirds of a|three quarters of a) (semi)?tone/u);
  await row.getByRole('button', { name: 'Plan it' }).click();
  await expect(heading(page)).toHaveText('Home', { timeout: 20_000 });
  await expect(page.getByText(/: tighten \d/u).first()).toBeVisible();
  await expect(page.getByRole('banner')).not.toContainText('in Home');
  await page.keyboard.press('Control+z');
  await expect(page.getByRole('banner')).toContainText('in Home', { timeout: 30_000 });
});
