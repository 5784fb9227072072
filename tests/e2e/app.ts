import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { _electron, type Browser, chromium, type Page, test as base } from 'playwright/test';
import { chromiumArguments, chromiumPath } from '../support/chromium.ts';
import { electronPath } from '../support/electron-path.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** The two hosts that one spec runs against. */
export const hosts = ['desk', 'electron'] as const;
export type HostName = (typeof hosts)[number];

type Options = {
  host: HostName;
  /** Path of a WAV that Chromium takes for its microphone; null = no microphone at all. */
  microphone: string | null;
};

/** The app as a test has it: its page, and a way to end it before the test does. */
type App = { readonly page: Page; readonly close: () => Promise<void> };

type Fixtures = {
  /** That data folder. */
  dataFolder: string;
  app: App;
  page: Page;
};

/** Opens the app for a test: a fresh data folder, a host on it, and a page with the microphone that the test wants. */
export const test = base.extend<Options & Fixtures>({
  host: ['desk', { option: true }],
  microphone: [null, { option: true }],
  dataFolder: async ({}, use) => {
    const folder = mkdtempSync(join(tmpdir(), 'stillstring-e2e-'));
    await use(folder);
    rmSync(folder, { recursive: true, force: true, maxRetries: 5 });
  },
  app: async ({ host, microphone, dataFolder, viewport, colorScheme }, use) => {
    const app =
      host === 'electron'
        ? await openElectron(dataFolder, microphone)
        : await openInChromium(dataFolder, microphone, { viewport, colorScheme: colorScheme ?? 'dark' });
    await use(app);
    await app.close();
  },
  page: ({ app }, use) => use(app.page),
});

async function openElectron(dataFolder: string, microphone: string | null): Promise<App> {
  const app = await _electron.launch({
    executablePath: electronPath() ?? '',
    args: [root, ...chromiumArguments(microphone)],
    env: { ...process.env, STILLSTRING_DATA: dataFolder },
  });
  return { page: await app.firstWindow({ timeout: 20_000 }), close: once(() => app.close()) };
}

async function openInChromium(dataFolder: string, microphone: string | null, context: Parameters<Browser['newContext']>[0]): Promise<App> {
  const desk = await openDesk(dataFolder);
  const executablePath = chromiumPath();
  if (executablePath === null) throw new Error('There is no Chromium on this machine.');
  const browser = await chromium.launch({ executablePath, args: [...chromiumArguments(microphone)] });
  const page = await (await browser.newContext(context)).newPage();
  await page.goto(desk.address);
  const close = async () => {
    await browser.close();
    await desk.close();
  };
  return { page, close: once(close) };
}

/** Does it the first time only. */
function once(action: () => Promise<void>): () => Promise<void> {
  let done: Promise<void> | null = null;
  return () => (done ??= action());
}

/** Starts the desk as `npm start` would, on a port that nobody prefers, and waits for its address. */
export async function openDesk(
  dataFolder: string,
  ...words: readonly string[]
): Promise<{ readonly address: string; readonly close: () => Promise<void> }> {
  const child = spawn(process.execPath, [join(root, 'out/main/launch.js'), '--browser', ...words], {
    env: { ...process.env, STILLSTRING_DATA: dataFolder, STILLSTRING_PORT: '47391', DISPLAY: '', WAYLAND_DISPLAY: '' },
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const address = await addressOf(child);
  return { address, close: () => stop(child) };
}

const addressOf = (child: ChildProcess): Promise<string> =>
  new Promise((resolve, reject) => {
    let said = '';
    child.stdout?.on('data', (words: Buffer) => {
      said += words.toString();
      const address = /http:\/\/127\.0\.0\.1:\d+\/#launch=\S+/u.exec(said)?.[0];
      if (address !== undefined) resolve(address);
    });
    child.once('exit', (code) => reject(new Error(`The desk ended with ${code}: ${said}`)));
  });

const stop = (child: ChildProcess): Promise<void> =>
  new Promise((resolve) => {
    if (child.exitCode !== null) return resolve();
    child.once('exit', () => resolve());
    child.kill('SIGTERM');
  });
