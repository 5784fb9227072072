import { expect } from 'playwright/test';
import { test } from './app.ts';

test('anything is found by its name from anywhere, by keyboard alone', async ({ page }) => {
  await page.getByRole('button', { name: 'Look around with the demo library' }).click();
  await expect(page.getByText('Finch').first()).toBeVisible();
  await page.keyboard.press('Control+k');
  await page.keyboard.type('lantern e');
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Lantern E♭');

  await page.keyboard.press('Control+k');
  await page.keyboard.type('rook');
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Enter');
  await expect(page).toHaveURL(/settling\?on=demo-rook/u);

  await page.keyboard.press('Control+k');
  await page.keyboard.type('no such thing');
  await expect(page.getByText('Nothing by that name.')).toBeVisible();
  await page.keyboard.press('Escape');
  await page.keyboard.press('Escape');
  await expect(page.getByText('Nothing by that name.')).toBeHidden();
});
