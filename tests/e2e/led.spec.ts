import { expect, type Page } from 'playwright/test';
import { test } from './app.ts';
import { play, playMicrophone, pluck, plugIn, unplug } from './played-microphone.ts';

/** A demo library, and Wren on its way to Lantern E♭. */
async function startListening(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Look around with the demo library' }).click();
  await expect(page.getByText('Finch').first()).toBeVisible();
  await page.evaluate(() => {
    location.hash = '#/retune?on=demo-wren&to=demo-lantern-e-flat';
  });
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Lantern E♭', { timeout: 20_000 });
  await page.keyboard.press('Space');
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Retune Wren to Lantern E♭');
}

/** The page anew, once it has got in: its way in can be used only once. */
async function reloaded(page: Page): Promise<void> {
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
  await page.reload();
}

const command = (page: Page, words: string) => page.getByText(words, { exact: true });

test('every step of a retune has a key, and the far view leaves nothing else in reach', async ({ page }) => {
  await playMicrophone(page);
  await startListening(page);
  await expect(command(page, '3 pluck')).toBeVisible();
  await page.keyboard.press('PageDown');
  await expect(command(page, '2 pluck')).toBeVisible();
  await expect(page.getByText('left as it is')).toBeVisible();
  await page.keyboard.press('PageUp');
  await expect(command(page, '3 pluck')).toBeVisible();
  await page.keyboard.press('ArrowRight');
  await expect(command(page, '2 pluck')).toBeVisible();
  await page.keyboard.press('z');
  await expect(command(page, '3 pluck')).toBeVisible();
  await page.keyboard.press('Space');
  await expect(command(page, '3 paused')).toBeVisible();
  await page.keyboard.press('Space');
  await expect(command(page, '3 pluck')).toBeVisible();
  await page.keyboard.press('a');
  await expect(page.getByRole('radio', { name: 'Any course' })).toBeChecked();
  await page.keyboard.press('a');
  await expect(page.getByRole('radio', { name: 'Course asked for' })).toBeChecked();
  await page.keyboard.press('r');
  await expect(command(page, '3 pluck')).toBeVisible();

  await page.keyboard.press('f');
  await expect(page.getByText('then 2 loosen, E4 → E♭4')).toBeVisible();
  await page.keyboard.press('Tab');
  await expect(page.getByRole('button', { name: 'Leave the far view' })).toBeFocused();
  await page.keyboard.press('Tab');
  expect(await page.evaluate(() => document.activeElement?.closest('header, nav, li') ?? null)).toBeNull();
  await page.keyboard.press('Escape');
  await expect(page.getByRole('button', { name: 'Leave the far view' })).toHaveCount(0);
  await expect(command(page, '3 pluck')).toBeVisible();
  await page.keyboard.press('Escape');
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Lantern E♭');
});

test('what goes wrong is said: the other way, a caution before a string breaks, a microphone that goes and comes back', async ({
  page,
}) => {
  await playMicrophone(page);
  await startListening(page);
  await page.keyboard.press('PageDown');
  await page.keyboard.press('PageDown');
  await expect(command(page, '1 pluck')).toBeVisible();
  const from = (cents: number) => 466.1638 * 2 ** (cents / 1200);
  await pluck(page, from(-100));
  await expect(command(page, '1 tighten')).toBeVisible();
  await pluck(page, from(-135));
  await expect(page.getByText('The other way.').first()).toBeVisible();
  await expect(page.getByRole('status')).toHaveText('The other way.');

  for (const cents of [60, 190]) await pluck(page, from(cents));
  await expect(command(page, '1 stop')).toBeVisible();
  await expect(page.getByRole('status')).toContainText(/of what breaks it/u);
  await pluck(page, from(100));
  await expect(command(page, '1 loosen')).toBeVisible();

  await play(page, from(100), 0);
  await unplug(page);
  await expect(page.getByRole('status')).toContainText('Pickup is gone.');
  await expect(page.getByRole('button', { name: 'Input: microphone gone' })).toBeVisible();
  await plugIn(page);
  await expect(page.getByRole('status')).toContainText('Listening again.');
  await pluck(page, from(60));
  await expect(command(page, '1 loosen')).toBeVisible();
});

test('the next instruction is spoken, in the words of the screen, once the player wants it', async ({ page }) => {
  await page.addInitScript(() => {
    const spoken: string[] = [];
    const voice = { lang: 'en-GB', localService: true, name: 'Voice' };
    const synthesis = Object.assign(new EventTarget(), {
      getVoices: () => [voice],
      cancel: () => undefined,
      speak: (words: EventTarget & { text: string }) => {
        spoken.push(words.text);
        setTimeout(() => words.dispatchEvent(new Event('end')), 200);
      },
    });
    Object.defineProperty(window, 'speechSynthesis', { value: synthesis });
    class Utterance extends EventTarget {
      readonly text: string;
      constructor(text: string) {
        super();
        this.text = text;
      }
    }
    Object.assign(window, { SpeechSynthesisUtterance: Utterance, spoken });
  });
  await reloaded(page);
  await playMicrophone(page);
  await startListening(page);
  const spoken = () => page.evaluate(() => (window as unknown as { spoken: readonly string[] }).spoken);
  await expect(page.getByRole('status')).toContainText('Course 3, C4 to B flat 3: loosen, a tone.');
  expect(await spoken()).toEqual([]);
  await page.getByRole('button', { name: 'More' }).click();
  await page.getByRole('menuitemcheckbox', { name: 'The next step, spoken' }).click();
  await page.keyboard.press('Escape');
  await page.keyboard.press('PageDown');
  await expect.poll(spoken).toEqual(['Course 2, E4 to E flat 4: loosen, a semitone.']);
  await expect(page.getByRole('status')).toHaveText('Course 2, E4 to E flat 4: loosen, a semitone.');
});

test('where no voice speaks English, the switch says so', async ({ page }) => {
  await page.addInitScript(() => {
    const synthesis = Object.assign(new EventTarget(), { getVoices: () => [], cancel: () => undefined });
    Object.defineProperty(window, 'speechSynthesis', { value: synthesis });
  });
  await reloaded(page);
  await startListening(page);
  await page.getByRole('button', { name: 'More' }).click();
  await expect(page.getByRole('menuitemcheckbox', { name: 'The next step, spoken' })).toBeDisabled();
  await expect(page.getByText('no English voice on this computer')).toBeVisible();
});
