import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import { expect, type Page } from 'playwright/test';
import { recordingPath } from '../support/demo.ts';
import { plucked } from '../support/plucked.ts';
import { test } from './app.ts';

async function goTo(page: Page, address: string): Promise<void> {
  await page.evaluate((hash) => {
    location.hash = hash;
  }, address);
  await expect(page.getByRole('heading', { level: 1 })).toHaveCount(1);
}

async function withDemo(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Look around with the demo library' }).click();
  await expect(page.getByText('Finch').first()).toBeVisible();
}

/** Presses Tab until the focus is on the control of that name. Throws where no press gets there. */
async function tabTo(page: Page, role: 'button' | 'menuitem' | 'radio' | 'textbox', name: string | RegExp): Promise<void> {
  const wanted = page.getByRole(role, { name, exact: typeof name === 'string' }).first();
  await expect(wanted).toBeVisible();
  for (let press = 0; press < 60; press += 1) {
    if (await wanted.evaluate((element) => element === document.activeElement)) return;
    await page.keyboard.press('Tab');
  }
  throw new Error(`no way by Tab to ${String(name)}`);
}

async function press(page: Page, name: string | RegExp): Promise<void> {
  await tabTo(page, 'button', name);
  await page.keyboard.press('Enter');
}

async function chooseInMenu(page: Page, menu: string | RegExp, item: string | RegExp): Promise<void> {
  await press(page, menu);
  const wanted = page.getByRole('menuitem', { name: item, exact: typeof item === 'string' });
  await expect(wanted).toBeVisible();
  for (let step = 0; step < 9 && !(await wanted.evaluate((element) => element === document.activeElement)); step += 1)
    await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Enter');
}

async function expectAccessible(page: Page, name: string): Promise<void> {
  const { violations } = await new AxeBuilder({ page }).analyze();
  expect
    .soft(
      violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`),
      name,
    )
    .toEqual([]);
}

const lantern = '/tunings?on=demo-wren&open=demo-lantern-e-flat';

test.describe('the library, by keyboard alone', () => {
  test('a tuning is changed, and the change taken back', async ({ page }) => {
    await withDemo(page);
    await goTo(page, lantern);
    await chooseInMenu(page, /More to do with Lantern/u, 'Change it');
    await page.getByRole('textbox', { name: 'Name' }).press('ControlOrMeta+a');
    await page.keyboard.type('Lamp');
    await page.keyboard.press('Enter');
    await expect(page.getByText('Changed Lantern E♭.')).toBeVisible();
    await expect(page.getByRole('row', { name: 'Lamp' })).toBeVisible();
    await page.keyboard.press('ControlOrMeta+z');
    await expect(page.getByRole('row', { name: 'Lantern E♭' })).toBeVisible();
    await expect(page.getByRole('row', { name: 'Lamp' })).toHaveCount(0);
  });

  test('a tuning is started from another, spelled in a key', async ({ page }) => {
    await withDemo(page);
    await goTo(page, lantern);
    await chooseInMenu(page, /More to do with Lantern/u, 'A new one from it');
    await page.keyboard.type('Respelled');
    await tabTo(page, 'button', /Spelled as in/u);
    await page.keyboard.type('B major');
    await page.keyboard.press('Enter');
    await page.keyboard.type('B major');
    await page.keyboard.press('Enter');
    await expect(page.getByRole('textbox', { name: /Open strings/u })).toHaveValue(/A♯3/u);
    await press(page, 'Save');
    await expect(page.getByText('Added Respelled.')).toBeVisible();
    await expect(page.getByRole('row', { name: 'Respelled' })).toContainText('same as Lantern E♭');
  });

  test('a tuning is carried to another instrument and planned there', async ({ page }) => {
    await withDemo(page);
    await goTo(page, lantern);
    await press(page, 'Carry to …');
    await expect(page.getByRole('dialog')).toContainText('F major');
    await expectAccessible(page, 'carry');
    await press(page, 'Plan it on Moth');
    await expect(page).toHaveURL(/retune\?on=demo-moth&to=demo-lantern-e-flat/u);
  });

  test('the by-ear sheet is a page for paper: nothing else of the window is printed', async ({ page }) => {
    await withDemo(page);
    await goTo(page, lantern);
    await chooseInMenu(page, /More to do with Lantern/u, 'By-ear sheet');
    await expect(page.getByRole('article')).toContainText('Raise course 1 until it matches course 4 at the 3rd fret.');
    await expectAccessible(page, 'by-ear sheet');
    await tabTo(page, 'radio', 'Tuning sheet');
    await page.keyboard.press('Enter');
    await expect(page.getByRole('article')).toContainText('233.1');
    await expectAccessible(page, 'tuning sheet');
    await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
    await expect(page.getByRole('article')).toBeVisible();
    for (const other of [page.locator('header'), page.locator('nav'), page.getByText('Print', { exact: true })])
      await expect(other).toBeHidden();
    const colours = await page.getByRole('article').evaluate((paper) => {
      const { color, overflow } = getComputedStyle(paper);
      return { color, overflow, background: getComputedStyle(document.body).backgroundColor };
    });
    expect(colours).toEqual({ color: 'rgb(0, 0, 0)', overflow: 'visible', background: 'rgb(255, 255, 255)' });
    await page.emulateMedia({ media: 'screen' });
    await press(page, 'Back to the tunings');
    await expect(page.getByRole('row', { name: 'Lantern E♭' })).toBeVisible();
  });

  test('the library goes out as a file; an edited one is looked at, taken in and taken back', async ({ page, dataFolder }) => {
    await withDemo(page);
    await goTo(page, '/tunings?on=demo-wren');
    const saving = page.waitForEvent('download');
    await chooseInMenu(page, 'Files', 'Save the library');
    const saved = await saving;
    expect(saved.suggestedFilename()).toMatch(/^stillstring-\d{4}-\d{2}-\d{2}\.stillstring\.json$/u);
    const text = readFileSync(await saved.path(), 'utf8');
    const edited = join(dataFolder, 'edited.stillstring.json');
    writeFileSync(edited, text.replaceAll('Lantern E', 'Lamp E'));

    const choosing = page.waitForEvent('filechooser');
    await chooseInMenu(page, 'Files', /Take in a library file/u);
    await (await choosing).setFiles(edited);
    await expect(page.getByRole('heading', { level: 1 })).toHaveText('Take in edited.stillstring.json');
    await expect(page.getByText(/Here already, but different: 1 tuning/u)).toBeVisible();
    await expectAccessible(page, 'import');
    await tabTo(page, 'button', /What becomes of Lamp/u);
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    await expect(page.getByRole('button', { name: /replace the one here/u })).toBeVisible();
    await press(page, 'Take it in');
    await expect(page.getByText('Took in edited.stillstring.json.')).toBeVisible();
    await goTo(page, lantern);
    await expect(page.getByRole('row', { name: 'Lamp E♭' })).toBeVisible();
    await press(page, /^Undo/u);
    await expect(page.getByRole('row', { name: 'Lantern E♭' })).toBeVisible();
  });

  test('a file that is none is refused with a sentence, and readings go out as CSV', async ({ page, dataFolder }) => {
    await withDemo(page);
    await goTo(page, '/tunings?on=demo-wren');
    const broken = join(dataFolder, 'broken.json');
    writeFileSync(broken, '{"format":"stillstring-library","version":7}');
    const choosing = page.waitForEvent('filechooser');
    await chooseInMenu(page, 'Files', /Take in a library file/u);
    await (await choosing).setFiles(broken);
    await expect(page.getByRole('alert')).toContainText('written by a newer Stillstring (format 7)');
    const saving = page.waitForEvent('download');
    await chooseInMenu(page, 'Files', /readings of Wren as CSV/u);
    const saved = await saving;
    expect(saved.suggestedFilename()).toBe('wren-readings.csv');
    const lines = readFileSync(await saved.path(), 'utf8')
      .trimEnd()
      .split('\r\n');
    expect(lines[0]).toContain('time (UTC),instrument,strings,course');
    expect(lines.length).toBeGreaterThan(100);
  });

  test('an instrument shows what another gauge does, gets its old strings back, and its new ones again', async ({ page }) => {
    await withDemo(page);
    await goTo(page, '/instruments?open=demo-wren');
    await expectAccessible(page, 'instrument');
    await press(page, 'Change Wren');
    await tabTo(page, 'textbox', 'Course 1: Diameter, mm');
    await page.keyboard.type('0.7');
    await expect(page.getByText(/→ .* N at A4/u)).toBeVisible();
    await expectAccessible(page, 'change of an instrument');
    await press(page, 'Leave it as it was');
    await press(page, 'Put them on again');
    await expect(page.getByText(/^Put Fluorocarbon, first set on Wren\.$/u)).toBeVisible();
    await expect(page.getByText(/Fluorocarbon, first set, fitted/u)).toBeVisible();
    await page.keyboard.press('ControlOrMeta+z');
    await expect(page.getByText(/Fluorocarbon, second set, fitted/u)).toBeVisible();
  });
});

test.describe('a newcomer', () => {
  test('comes from “I have a baritone” to its low course down a tone, by what stands on the screen', async ({ page, dataFolder }) => {
    await expect(page.getByRole('heading', { level: 1 })).toHaveText('Which instrument is in your hands?');
    await expectAccessible(page, 'first run');
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: /Kind/u }).click();
    await page.keyboard.type('bar');
    await page.keyboard.press('Enter');
    await expect(page.getByText('At home in D3 G3 B3 E4, linear', { exact: false })).toBeVisible();
    await expectAccessible(page, 'a new instrument');
    await page.getByRole('button', { name: /^Save/u }).click();
    await page.getByRole('button', { name: 'Choose a tuning' }).click();
    // What is open C on a soprano is open G on a baritone, and is called so.
    await expect(page.getByRole('row', { name: 'Open G', exact: true })).toContainText('G major');
    await page.getByRole('row', { name: '4 down a tone' }).click();
    await expect(page.getByRole('row', { name: '4 down a tone' })).toContainText('D3 → C3 down 2');
    await expect(page.getByRole('row', { name: '4 down a tone' })).toContainText('ask a qualified luthier');
    await expectAccessible(page, 'a tuning opened');

    const recording = join(dataFolder, 'baritone.wav');
    const [c3, g3, b3, e4] = [130.8128, 195.9977, 246.9417, 329.6276];
    writeFileSync(
      recording,
      plucked([
        { hertz: c3, seconds: 1.2, fromCents: 200, toCents: 200 },
        { hertz: c3, seconds: 1.7, fromCents: 200, toCents: -9 },
        { hertz: c3, seconds: 1.5, fromCents: -9, toCents: 1 },
        { hertz: c3, seconds: 2.4, fromCents: 1, toCents: 1 },
        ...[g3, b3, e4, c3, g3, b3, e4].map((hertz) => ({ hertz, seconds: 2.1, fromCents: 0.5, toCents: 0.5 })),
      ]),
    );
    await page.locator('input[type=file][accept*=wav]').setInputFiles(recording);
    await page.getByRole('button', { name: /^Plan 4 down a tone/u }).click();
    await expect(page.getByText('first: loosen 2 semitones')).toBeVisible();
    await page.getByRole('button', { name: /^Start listening/u }).click();
    await page.getByRole('button', { name: /^Pluck them instead/u }).click();
    await expect(page.getByRole('heading', { level: 1, name: 'My baritone is in 4 down a tone' })).toBeVisible({ timeout: 60_000 });
  });

  test('whose instrument is in a tuning already says so, and takes it back', async ({ page }) => {
    await page.getByRole('button', { name: /^Set up an instrument/u }).click();
    await page.getByRole('textbox', { name: 'Name' }).fill('Otter');
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Choose a tuning' }).click();
    await page.getByRole('row', { name: '4 down a tone' }).click();
    await chooseInMenu(page, /More to do with 4 down/u, 'Otter is in it already');
    await expect(page.getByRole('row', { name: '4 down a tone' })).toContainText('Otter is here');
    await page.getByRole('button', { name: /^Undo/u }).click();
    await expect(page.getByRole('row', { name: '4 down a tone' })).toContainText('4 down 2');
  });
});

test('who goes on before an instrument is written down finds it with its tunings all the same', async ({ page }) => {
  await page.getByRole('button', { name: /^Set up an instrument/u }).click();
  await page.getByRole('textbox', { name: 'Name' }).fill('Otter');
  await page.getByRole('button', { name: /^Save/u }).evaluate((save: HTMLElement) => {
    save.click();
    location.hash = '/tunings';
  });
  await expect(page.getByRole('row', { name: '4 down a tone' })).toBeVisible();
  await expect(page).toHaveURL(/#\/tunings/u);
});

test('a tuning is played in, one pluck a course, and keeps its cents where the player wants them', async ({ page }) => {
  await withDemo(page);
  await goTo(page, '/tunings?on=demo-wren');
  await page.locator('input[type=file][accept*=wav]').setInputFiles(recordingPath('wren-after.wav'));
  await page.getByRole('button', { name: 'New tuning' }).click();
  await page.getByRole('textbox', { name: 'Name' }).fill('As it was found');
  await page.getByRole('button', { name: 'Play it in' }).click();
  await expect(page.getByText('Pluck course 4')).toBeVisible();
  await expectAccessible(page, 'playing a tuning in');
  const strings = page.getByRole('textbox', { name: /Open strings/u });
  await expect(strings).toHaveValue('G4  B♭3  E♭4  B♭4', { timeout: 30_000 });
  await expect(page.getByText('They make E♭ major.')).toBeVisible();
  await expect(page.getByRole('textbox', { name: 'Course 4' })).toHaveValue('');
  await page.getByText('Keep how far each course lies from its note').click();
  await expect(page.getByRole('textbox', { name: 'Course 4' })).toHaveValue(/^\d+(?:\.\d)?$/u);
  await page.getByText('Keep how far each course lies from its note').click();
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await goTo(page, '/tunings?on=demo-wren&open=demo-lantern-e-flat');
  await expect(page.getByRole('row', { name: 'Lantern E♭' })).toContainText('The same tuning as As it was found.', { timeout: 20_000 });
});

test('pitches, notes and tags are changed in the open row, the margins following as they are typed', async ({ page }) => {
  await withDemo(page);
  await goTo(page, lantern);
  const row = page.getByRole('row', { name: 'Lantern E♭' });
  const strings = row.getByRole('textbox', { name: /Open strings/u });
  await strings.fill('G4 Bb3 Eb4 C5');
  await expect(row).toContainText('past its limit');
  await page.keyboard.press('Escape');
  await expect(strings).toHaveValue('G4  B♭3  E♭4  B♭4');
  await expect(row).not.toContainText('past its limit');
  await strings.fill('G4 Bb3 Eb4 A4');
  await page.keyboard.press('ArrowDown');
  await expect(strings).toBeFocused();
  await page.keyboard.press('Enter');
  await expect(page.getByText('Changed Lantern E♭.')).toBeVisible();
  const tags = row.getByRole('textbox', { name: /Tags/u });
  await tags.fill('open, windy');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('radio', { name: 'Windy' }).or(tags)).toBeVisible();
  await press(page, /^Undo/u);
  await expect(tags).toHaveValue('open, winter set');
  await press(page, /^Undo/u);
  await expect(strings).toHaveValue('G4  B♭3  E♭4  B♭4');
});

test('note names are German everywhere once they are chosen: rows, search, forms and sheets', async ({ page }) => {
  await withDemo(page);
  await goTo(page, '/settings');
  await page.getByRole('radio', { name: 'C D E F G A H' }).click();
  await goTo(page, lantern);
  await expect(page.getByRole('row', { name: 'Lantern E♭' })).toContainText('Es major');
  await page.getByRole('textbox', { name: 'Search' }).fill('es4');
  await expect(page.getByRole('row', { name: 'Lantern E♭' })).toBeVisible();
  await page.getByRole('textbox', { name: 'Search' }).fill('');
  await chooseInMenu(page, /More to do with Lantern/u, 'Tuning sheet');
  await expect(page.getByRole('article')).toContainText('Es4');
  await press(page, 'Back to the tunings');
  await page.getByRole('button', { name: 'New tuning' }).click();
  await page.getByRole('textbox', { name: /Open strings/u }).fill('g h es b');
  await expect(page.getByText('C4 → H3')).toBeVisible();
});

test('the library is sifted by what the instrument can take and sorted by what was used last', async ({ page }) => {
  await withDemo(page);
  await goTo(page, '/tunings?on=demo-wren');
  const past = page.getByRole('row').filter({ hasText: 'past the limit for breaking' });
  await expect(past.first()).toBeVisible({ timeout: 20_000 });
  await page.getByRole('radio', { name: 'Wren can take' }).click();
  await expect(past).toHaveCount(0);
  await expect(page.getByRole('row').first()).toBeVisible();
  await page.getByRole('radio', { name: /^All/u }).click();
  await page.getByRole('button', { name: /Order/u }).click();
  await page.getByRole('option', { name: 'Last used first' }).click();
  await expect(page.getByRole('row').first()).toContainText('used ');
});
