import { expect } from 'playwright/test';
import { test } from './app.ts';

test('without a microphone the player is told so, in a sentence, and nothing else is lost', async ({ page }) => {
  await page.context().grantPermissions(['microphone']);
  await page.getByRole('button', { name: 'Look around with the demo library' }).click();
  await expect(page.getByText('Finch').first()).toBeVisible();
  await page.evaluate(() => {
    location.hash = '#/retune?on=demo-wren&to=demo-lantern-e-flat';
  });
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Lantern E♭');
  await page.keyboard.press('Space');
  await expect(page.getByRole('button', { name: 'Input: no microphone' })).toBeVisible();
  await expect(page.getByRole('status')).toContainText(/microphone/iu);
  await page.keyboard.press('Escape');
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Lantern E♭');
});

test('a microphone that is refused is named as refused', async ({ page }) => {
  await page.getByRole('button', { name: 'Look around with the demo library' }).click();
  await expect(page.getByText('Finch').first()).toBeVisible();
  await page.evaluate(() => {
    navigator.mediaDevices.getUserMedia = () => Promise.reject(new DOMException('refused', 'NotAllowedError'));
    location.hash = '#/retune?on=demo-wren&to=demo-lantern-e-flat';
  });
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Lantern E♭', { timeout: 20_000 });
  await page.keyboard.press('Space');
  await expect(page.getByRole('status')).toContainText(/allow|refus|denied/iu);
  await expect(page.getByRole('button', { name: 'Try again' })).toBeVisible();
});
