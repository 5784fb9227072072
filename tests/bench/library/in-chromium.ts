import { chromium, type Page } from 'playwright';
import { openDesk } from '../../e2e/app.ts';
import { chromiumArguments, chromiumPath } from '../../support/chromium.ts';

/** A piece of work in the page: how long until it was painted, and the tasks that held the page for more than 50 ms meanwhile. */
export type Work = { readonly name: string; readonly milliseconds: number; readonly longTasks: readonly number[] };

/** What was seen in the page, in milliseconds. A keystroke after which the list showed the same rows is in `unchanged`. */
type Seen = {
  readonly screen: number;
  readonly judged: number;
  readonly visits: readonly Work[];
  readonly scrolling: Work;
  readonly keystrokes: readonly number[];
  readonly unchanged: number;
};

const words = ['bazu', 'kemi', 'tora', 'vise', 'nulo'] as const;
const screens = ['tunings', 'retune', 'settling', 'settings', 'instruments', 'tunings'] as const;

/** Opens the desk on a library, goes to each screen, scrolls through the tunings and types in their search. */
export async function useInChromium(folder: string, instrumentId: string): Promise<Seen> {
  const executablePath = chromiumPath();
  if (executablePath === null) throw new Error('There is no Chromium on this machine.');
  const desk = await openDesk(folder);
  const browser = await chromium.launch({ executablePath, args: [...chromiumArguments(null)] });
  try {
    const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
    page.setDefaultTimeout(120_000);
    const opened = performance.now();
    await page.goto(desk.address);
    await page.getByRole('heading', { level: 1 }).waitFor();
    const screen = performance.now() - opened;
    await page.evaluate(watchLongTasks);
    const visits: Work[] = [];
    for (const name of screens) visits.push(await measured(page, name, () => page.evaluate(goTo, `/${name}?on=${instrumentId}`)));
    // The overview of all instruments, judged in the background since the first screen.
    const back = performance.now();
    await page.evaluate(goTo, `/instruments?on=${instrumentId}`);
    await page.locator('.verdict').first().waitFor();
    const judged = performance.now() - back;
    await page.evaluate(goTo, `/tunings?on=${instrumentId}`);
    const list = page.getByRole('grid', { name: 'Tunings' });
    await list.getByRole('row').first().waitFor();
    await page.waitForTimeout(5000);
    const scrolling = await measured(page, 'scrolling', async () => {
      for (let turn = 0; turn < 40; turn += 1) {
        await list.evaluate((element) => element.scrollBy(0, 1200));
        await page.waitForTimeout(30);
      }
    });
    return { screen, judged, visits, scrolling, ...(await search(page)) };
  } finally {
    await browser.close();
    await desk.close();
  }
}

async function search(page: Page): Promise<Pick<Seen, 'keystrokes' | 'unchanged'>> {
  const field = page.getByRole('textbox', { name: 'Search' });
  const times: (number | null)[] = [];
  for (const word of words) {
    await field.fill('');
    await page.waitForTimeout(600);
    await field.click();
    for (const letter of word) {
      times.push(await page.evaluate(keystroke, letter));
      await page.waitForTimeout(300);
    }
  }
  const keystrokes = times.flatMap((time) => time ?? []);
  return { keystrokes, unchanged: times.length - keystrokes.length };
}

async function measured(page: Page, name: string, work: () => Promise<unknown>): Promise<Work> {
  await page.evaluate(() => {
    (window as unknown as { longTasks: number[] }).longTasks = [];
  });
  const started = performance.now();
  await work();
  const milliseconds = performance.now() - started;
  await page.waitForTimeout(1500);
  return { name, milliseconds, longTasks: await page.evaluate(() => (window as unknown as { longTasks: number[] }).longTasks) };
}

/** Runs in the page: notes every task over 50 ms, by the browser's own Long Tasks API. */
const watchLongTasks = (): void => {
  const page = window as unknown as { longTasks: number[] };
  page.longTasks = [];
  new PerformanceObserver((list) => page.longTasks.push(...list.getEntries().map(({ duration }) => duration))).observe({
    entryTypes: ['longtask'],
  });
};

/** Runs in the page: goes to an address and waits for the frame that shows another heading. */
const goTo = (address: string): Promise<void> =>
  new Promise((resolve) => {
    const heading = (): string | null => document.querySelector('h1')?.textContent ?? null;
    const before = heading();
    location.hash = address;
    const look = (): void => {
      const now = heading();
      if (now !== null && now !== before) setTimeout(() => resolve());
      else requestAnimationFrame(look);
    };
    requestAnimationFrame(look);
  });

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
