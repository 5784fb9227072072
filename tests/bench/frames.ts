// How smoothly a retune is shown while a string sounds: `npm run bench:frames`, after a build. Chromium hears the demo's retune as its microphone.
// Prints what was measured: frame times, the share of time for which the page's main thread and the pitch worker are busy, renders of React.

import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { cpus, loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { type CDPSession, chromium, type Page } from 'playwright';
import { writeWav } from '#shared/recording/index.ts';
import { demoRecordings } from '../../demo-data/recordings.ts';
import { openDesk } from '../e2e/app.ts';
import { chromiumArguments, chromiumPath } from '../support/chromium.ts';

const measuredSeconds = 20;
const rate = 44_100;
const window1280 = { width: 1280, height: 800 };

/** The demo's retune as a file that Chromium takes for its microphone. */
function microphoneIn(folder: string): string {
  const retune = demoRecordings(rate).find(({ file }) => file === 'wren-retune.wav');
  if (retune === undefined) throw new Error('the demo has no recording of a retune');
  const path = join(folder, 'retune.wav');
  writeFileSync(path, writeWav({ sampleRateHertz: rate, channels: [retune.samples] }, 'float32'));
  return path;
}

/** Lets the page note the time between two frames that it may paint in. */
const watchFrames = (page: Page, seconds: number): Promise<readonly number[]> =>
  page.evaluate(
    (milliseconds) =>
      new Promise<readonly number[]>((resolve) => {
        const times: number[] = [];
        const begin = performance.now();
        let last = begin;
        const next = (now: number) => {
          times.push(now - last);
          last = now;
          if (now - begin < milliseconds) requestAnimationFrame(next);
          else resolve(times.slice(1));
        };
        requestAnimationFrame(next);
      }),
    seconds * 1000,
  );

type Slice = {
  readonly ph: string;
  readonly name: string;
  readonly pid: number;
  readonly tid: number;
  readonly tdur?: number;
  readonly args?: { readonly name?: string };
};

/** What the browser traces while something happens. */
async function traced(session: CDPSession, happens: () => Promise<void>): Promise<readonly Slice[]> {
  const slices: Slice[] = [];
  session.on('Tracing.dataCollected', ({ value }) => slices.push(...(value as unknown as Slice[])));
  const complete = new Promise((resolve) => session.once('Tracing.tracingComplete', resolve));
  await session.send('Tracing.start', {
    transferMode: 'ReportEvents',
    traceConfig: { includedCategories: ['toplevel', '__metadata', 'disabled-by-default-devtools.timeline'] },
  });
  await happens();
  await session.send('Tracing.end');
  await complete;
  return slices;
}

/** Seconds of processor time of every task on the threads of one name; of the busiest thread. What other programs took meanwhile is not in it. */
function taskSeconds(slices: readonly Slice[], thread: string): readonly number[] {
  const threads = slices.filter(({ ph, name, args }) => ph === 'M' && name === 'thread_name' && args?.name === thread);
  const tasks = threads.map(({ pid, tid }) =>
    slices
      .filter((slice) => slice.ph === 'X' && slice.name === 'RunTask' && slice.pid === pid && slice.tid === tid)
      .map(({ tdur }) => (tdur ?? 0) / 1e6),
  );
  return tasks.reduce((busiest, these) => (sum(these) > sum(busiest) ? these : busiest), []);
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

const quantile = (values: readonly number[], share: number): number =>
  values.toSorted((a, b) => a - b)[Math.min(values.length - 1, Math.floor(values.length * share))] ?? Number.NaN;

const executablePath = chromiumPath();
if (executablePath === null) throw new Error('There is no Chromium on this machine.');
const folder = mkdtempSync(join(tmpdir(), 'stillstring-frames-'));
const desk = await openDesk(join(folder, 'data'));
const browser = await chromium.launch({ executablePath, args: [...chromiumArguments(microphoneIn(folder))] });
const page = await browser.newPage({ viewport: window1280 });
// React tells a developer's tool of every commit; here it only counts.
await page.addInitScript(() => {
  const counted = { commits: 0 };
  Object.assign(window, {
    counted,
    __REACT_DEVTOOLS_GLOBAL_HOOK__: {
      supportsFiber: true,
      inject: () => 1,
      onCommitFiberRoot: () => (counted.commits += 1),
      onCommitFiberUnmount: () => undefined,
    },
  });
});
await page.goto(desk.address);
await page.getByRole('button', { name: 'Look around with the demo library' }).click();
await page.getByText('Finch').first().waitFor();
await page.evaluate(() => {
  location.hash = '#/retune?on=demo-wren&to=demo-lantern-e-flat';
});
await page.getByRole('heading', { level: 1, name: 'Lantern E♭' }).waitFor();
await page.waitForTimeout(3000);
const session = await browser.newBrowserCDPSession();
await page.keyboard.press('Space');
await page.getByRole('button', { name: 'Input: hearing you' }).waitFor();

const commits = () => page.evaluate(() => (window as unknown as { counted: { commits: number } }).counted.commits);
const before = await commits();
let frames: readonly number[] = [];
const slices = await traced(session, async () => {
  frames = await watchFrames(page, measuredSeconds);
});
const rendered = (await commits()) - before;
const seconds = sum(frames) / 1000;

const tasks = taskSeconds(slices, 'CrRendererMain');
const longer = tasks.filter((task) => task > 1 / 60).length;

const percent = (part: number) => `${((100 * part) / seconds).toFixed(1)} %`;
console.log(
  `${frames.length} frames in ${seconds.toFixed(1)} s at ${window1280.width} × ${window1280.height}, ${cpus().length} cores, load ${loadavg()[0]?.toFixed(1)}`,
);
console.log(
  `frame time   median ${quantile(frames, 0.5).toFixed(1)} ms   95th ${quantile(frames, 0.95).toFixed(1)} ms   99th ${quantile(frames, 0.99).toFixed(1)} ms   (wanted: 95th < 16.7)`,
);
console.log(`main thread  busy ${percent(sum(tasks))}   (wanted: < 15 %)`);
console.log(`its tasks    longest ${(Math.max(0, ...tasks) * 1000).toFixed(1)} ms, ${longer} longer than a frame, in processor time`);
console.log(`pitch worker ${percent(sum(taskSeconds(slices, 'DedicatedWorker thread')))} of a core   (wanted: < 10 %)`);
console.log(
  `React        ${rendered} commits, ${(rendered / seconds).toFixed(1)} a second, ${(rendered / frames.length).toFixed(2)} a frame`,
);
await browser.close();
await desk.close();
rmSync(folder, { recursive: true, force: true });
