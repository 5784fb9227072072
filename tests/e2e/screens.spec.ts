import { AxeBuilder } from '@axe-core/playwright';
import { expect, type Page } from 'playwright/test';
import { test } from './app.ts';

/** Every screen that a player can stand on, by its address, with the demo library. */
const screens = [
  ['retune plan', '/retune?on=demo-wren&to=demo-lantern-e-flat'],
  ['settling, one string on its way', '/settling?on=demo-moth'],
  ['settling, one string slipping', '/settling?on=demo-rook'],
  ['settling, unheard', '/settling?on=demo-sedge'],
  ['a year of an instrument', '/settling?on=demo-wren&open=year'],
  ['tunings', '/tunings?on=demo-wren'],
  ['a tuning opened', '/tunings?on=demo-wren&open=demo-lantern-e-flat'],
  ['instruments', '/instruments'],
  ['an instrument opened', '/instruments?open=demo-rook'],
  ['settings', '/settings'],
] as const;

const sizes = [
  { width: 1280, height: 800 },
  { width: 720, height: 1280 },
] as const;

/** Goes to an address and waits until its own heading is there: that of the screen before stays until the next one is loaded. */
async function goTo(page: Page, address: string): Promise<void> {
  const heading = page.getByRole('heading', { level: 1 });
  const before = await heading.elementHandle();
  const isOtherScreen = new URL(page.url()).hash.split('?')[0] !== `#${address.split('?')[0]}`;
  await page.evaluate((hash) => {
    location.hash = hash;
  }, address);
  if (isOtherScreen) await before?.waitForElementState('hidden');
  await expect(heading).toHaveCount(1, { timeout: 20_000 });
  await expect(page.getByText('Working out from its log')).toHaveCount(0, { timeout: 20_000 });
  await page.evaluate(() => document.fonts.ready);
}

/** Text that is cut off by its own box, and boxes that stand out of the window at the right. */
const overflowing = (page: Page): Promise<readonly string[]> =>
  page.evaluate(() => {
    const out = [...document.querySelectorAll('main *, header *, nav *')].filter((element) => {
      const { right, width, height } = element.getBoundingClientRect();
      if (width < 2 || height < 2 || element.closest('svg') !== null) return false;
      const { overflowX, clipPath } = getComputedStyle(element);
      const isCut =
        element.scrollWidth > element.clientWidth + 1 && overflowX === 'hidden' && clipPath === 'none' && element.clientWidth > 0;
      return right > innerWidth + 1 || isCut;
    });
    return out.map(
      (element) => `${element.tagName.toLowerCase()}.${element.getAttribute('class') ?? ''}: ${(element.textContent ?? '').slice(0, 60)}`,
    );
  });

for (const colorScheme of ['dark', 'light'] as const) {
  for (const viewport of sizes) {
    test.describe(`${colorScheme}, ${viewport.width} × ${viewport.height}`, () => {
      test.use({ colorScheme, viewport });

      test('every screen passes the accessibility rules, fits the window and reports no fault', async ({ page }) => {
        const faults: string[] = [];
        page.on('console', (message) => {
          if (message.type() === 'error' || message.type() === 'warning') faults.push(message.text());
        });
        page.on('pageerror', (fault) => faults.push(fault.message));
        await page.getByRole('button', { name: 'Look around with the demo library' }).click();
        await expect(page.getByText('Finch').first()).toBeVisible();
        for (const [name, address] of screens) {
          await goTo(page, address);
          const { violations } = await new AxeBuilder({ page }).analyze();
          expect
            .soft(
              violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`),
              name,
            )
            .toEqual([]);
          expect.soft(await overflowing(page), name).toEqual([]);
        }
        expect(faults).toEqual([]);
      });
    });
  }
}

test('a newcomer sees what to do first, and the demo library goes again with one press', async ({ page }) => {
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Which instrument is in your hands?');
  await page.getByRole('button', { name: 'Look around with the demo library' }).click();
  await expect(page.getByText('Finch').first()).toBeVisible();
  await goTo(page, '/settings');
  await page.getByRole('button', { name: /remove the demo/iu }).click();
  await goTo(page, '/instruments');
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Which instrument is in your hands?');
});

test('back and forward go from screen to screen', async ({ page }) => {
  await page.getByRole('button', { name: 'Look around with the demo library' }).click();
  await page.getByRole('link', { name: 'Tunings' }).click();
  await expect(page).toHaveURL(/#\/tunings/u);
  await page.getByRole('link', { name: 'Settling' }).click();
  await page.goBack();
  await expect(page).toHaveURL(/#\/tunings/u);
  await page.goForward();
  await expect(page).toHaveURL(/#\/settling/u);
});

test('a tuning that is opened pushes the rows below it down, and none lies over another', async ({ page }) => {
  await page.getByRole('button', { name: 'Look around with the demo library' }).click();
  await expect(page.getByText('Finch').first()).toBeVisible();
  await goTo(page, '/tunings?on=demo-wren');
  await page.getByRole('row', { name: 'Cold hearth' }).click();
  await expect(page.getByText('Pull of each string')).toBeVisible();
  const overlaps = () =>
    page.getByRole('row').evaluateAll((rows) => {
      const boxes = rows.map((row) => ({
        name: row.getAttribute('aria-label') ?? '',
        top: row.getBoundingClientRect().top,
        height: row.scrollHeight,
      }));
      boxes.sort((a, b) => a.top - b.top);
      return boxes.filter(({ top, height }, index) => top + height > (boxes[index + 1]?.top ?? Infinity) + 1).map(({ name }) => name);
    });
  await expect.poll(overlaps).toEqual([]);
});
