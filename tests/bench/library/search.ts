import { chromium } from 'playwright';
import { openDesk } from '../../e2e/app.ts';
import { chromiumArguments, chromiumPath } from '../../support/chromium.ts';

/** What was seen in the page, in milliseconds. A keystroke after which the list showed the same rows is in `unchanged`. */
type Seen = { readonly screen: number; readonly list: number; readonly keystrokes: readonly number[]; readonly unchanged: number };

const words = ['bazu', 'kemi', 'tora', 'vise', 'nulo'] as const;

/** Opens the desk on a library and types in the search of its tunings: from each keystroke to the frame that shows other rows. */
export async function searchTunings(folder: string, instrumentId: string): Promise<Seen> {
  const executablePath = chromiumPath();
  if (executablePath === null) throw new Error('There is no Chromium on this machine.');
  const desk = await openDesk(folder);
  const browser = await chromium.launch({ executablePath, args: [...chromiumArguments(null)] });
  try {
    const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
    page.setDefaultTimeout(75_000);
    const opened = performance.now();
    await page.goto(desk.address);
    await page.getByRole('heading', { level: 1 }).waitFor();
    const screen = performance.now() - opened;
    const gone = performance.now();
    await page.evaluate((id) => {
      location.hash = `/tunings?on=${id}`;
    }, instrumentId);
    await page.getByRole('grid', { name: 'Tunings' }).getByRole('row').first().waitFor();
    const list = performance.now() - gone;
    await page.waitForTimeout(5000);
    const search = page.getByRole('textbox', { name: 'Search' });
    const times: (number | null)[] = [];
    for (const word of words) {
      await search.fill('');
      await page.waitForTimeout(600);
      await search.click();
      for (const letter of word) {
        times.push(await page.evaluate(keystroke, letter));
        await page.waitForTimeout(300);
      }
    }
    const keystrokes = times.flatMap((time) => time ?? []);
    return { screen, list, keystrokes, unchanged: times.length - keystrokes.length };
  } finally {
    await browser.close();
    await desk.close();
  }
}

/** Runs in the page: types a letter and waits for the frame after which the list shows other rows; null where a second brings none. */
const keystroke = (letter: string): Promise<number | null> =>
  new Promise((resolve) => {
    const rows = (): string => document.querySelector('[role=grid]')?.textContent ?? document.querySelector('main')?.textContent ?? '';
    const before = rows();
    const started = performance.now();
    document.execCommand('insertText', false, letter);
    const look = (): void => {
      // What a frame callback sees is painted by the end of that frame, where the next task begins.
      if (rows() !== before) setTimeout(() => resolve(performance.now() - started));
      else if (performance.now() - started > 1000) resolve(null);
      else requestAnimationFrame(look);
    };
    requestAnimationFrame(look);
  });
