import { mkdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type * as E from 'electron';
import { describe, expect, onTestFinished, test, vi } from 'vitest';
import { channels } from '#shared/contract/index.ts';
import { nameForNotifications } from '../../../../src-main/window/index.ts';
import { openLibrary } from '../../../../src-main/library/index.ts';
import { type FakeElectron, makeElectron } from '../../../support/electron-fake.ts';
import { evening, temporaryFolder, tuning } from '../../../support/host.ts';

const root = join(import.meta.dirname, '..', '..', '..', '..');
const front = 'app://stillstring/';

type Started = { readonly electron: FakeElectron; readonly folder: string };

/** Runs Electron's start against the fake, as far as the window's first page. */
async function start(electron: FakeElectron, folder: string): Promise<void> {
  vi.resetModules();
  vi.stubEnv('STILLSTRING_DATA', folder);
  vi.doMock('electron', () => electron.module);
  onTestFinished(() => {
    vi.doUnmock('electron');
    vi.unstubAllEnvs();
  });
  await import('../../../../src-main/index.ts');
  electron.becomeReady();
}

const quits = (electron: FakeElectron): boolean => electron.calls.some(([name]) => name === 'quit');

async function startWithWindow(): Promise<
  Started & { readonly window: FakeElectron['windows'][number]; readonly contents: E.WebContents }
> {
  const [electron, folder] = [makeElectron(), await temporaryFolder()];
  await start(electron, folder);
  const window = await vi.waitUntil(() => electron.windows.find(({ loaded }) => loaded.length > 0));
  onTestFinished(async () => {
    electron.emitApp('window-all-closed');
    await vi.waitUntil(() => quits(electron));
  });
  return { electron, folder, window, contents: window.window.webContents };
}

const mainFrame: Partial<E.WebFrameMain> = { parent: null, url: front };

describe('a reminder that the player answers', () => {
  test('brings the window before them, out of the dock too; the page asks for it, nobody else', async () => {
    const { electron, contents } = await startWithWindow();
    const raised = () => electron.calls.map(([name]) => name).filter((name) => ['restore', 'show', 'focus'].includes(name));
    const before = raised().length;
    expect(await electron.invoke(channels.ask, { contents, frame: mainFrame }, 'window.raise', {})).toEqual({ ok: true, value: {} });
    expect(raised().slice(before)).toEqual(['restore', 'show', 'focus']);
    const stranger = { parent: null, url: 'https://example.org/' };
    expect(await electron.invoke(channels.ask, { contents, frame: stranger }, 'window.raise', {})).toMatchObject({ ok: false });
    expect(raised().slice(before)).toHaveLength(3);
  });

  test('reaches the system under the app’s own name on Windows, where a notification needs one', () => {
    const named: string[] = [];
    const app = { setAppUserModelId: (id: string) => void named.push(id) };
    for (const platform of ['linux', 'darwin', 'win32'] as const) nameForNotifications(app, platform);
    expect(named).toEqual(['Stillstring']);
  });
});

describe('the start in Electron', () => {
  test('states the sandbox and our scheme before anything is ready, and keeps the engine’s files beside the library', async () => {
    const { electron, folder } = await startWithWindow();
    expect(electron.calls.slice(0, 3)).toEqual([
      ['enableSandbox'],
      [
        'registerSchemesAsPrivileged',
        [{ scheme: 'app', privileges: { standard: true, secure: true, supportFetchAPI: true, codeCache: true } }],
      ],
      ['setPath', 'userData', join(folder, 'window')],
    ]);
  });

  test('opens one hidden, isolated, sandboxed window on our own page, with the built preload', async () => {
    const { electron, window } = await startWithWindow();
    expect(electron.windows).toHaveLength(1);
    expect(window.loaded).toEqual([front]);
    expect(window.options).toMatchObject({
      show: false,
      webPreferences: {
        preload: join(root, 'out', 'preload', 'index.cjs'),
        sandbox: true,
        contextIsolation: true,
        nodeIntegration: false,
        nodeIntegrationInWorker: false,
        nodeIntegrationInSubFrames: false,
        webSecurity: true,
        webviewTag: false,
      },
    });
    expect(Object.keys(window.options.webPreferences ?? {})).not.toContain('allowRunningInsecureContent');
  });

  test('names the preload as the build does', async () => {
    const config = await readFile(join(root, 'electron.vite.config.ts'), 'utf8');
    expect(config).toContain(`outDir: 'out/preload'`);
    expect(config).toContain(`entryFileNames: '[name].cjs'`);
  });

  test('shows the window when its page is painted', async () => {
    const { electron, window } = await startWithWindow();
    expect(electron.calls).not.toContainEqual(['show']);
    window.window.emit('ready-to-show');
    expect(electron.calls).toContainEqual(['show']);
  });

  test('answers the page from the library in the data folder', async () => {
    const { electron, folder, contents } = await startWithWindow();
    const ask = (name: string, input: unknown): Promise<unknown> =>
      electron.invoke(channels.ask, { contents, frame: mainFrame }, name, input);
    expect(await ask('library.status', {})).toMatchObject({ ok: true, value: { host: 'electron', dataFolder: folder } });
    expect(await ask('tunings.save', tuning)).toEqual({ ok: true, value: tuning });
    expect(electron.calls).toContainEqual(['send', channels.push, 'changed', { parts: ['tunings'] }]);
    expect(
      await electron.invoke(channels.ask, { contents, frame: { ...mainFrame, url: 'https://example.org/' } }, 'tunings.list', {}),
    ).toMatchObject({ ok: false });
  });

  test('serves our pages by the fixed list, for reading, under the policy of the desk', async () => {
    const { electron } = await startWithWindow();
    const recording = await electron.fetch(`${front}demo/wren-retune.wav`);
    expect([recording.status, recording.headers.get('Content-Type')]).toEqual([200, 'audio/wav']);
    expect(recording.headers.get('Content-Security-Policy')).toMatch(
      /^default-src 'none'; script-src 'self'; .*connect-src 'self'; base-uri 'none'/,
    );
    for (const address of [
      'package.json',
      '../package.json',
      '..%2f..%2fpackage.json',
      '%2e%2e/%2e%2e/package.json',
      'demo/truth.json',
      'demo/library.json',
    ])
      expect((await electron.fetch(front + address)).status, address).toBe(404);
    expect((await electron.fetch(`${front}%`)).status).toBe(400);
    expect((await electron.fetch('app://other/index.html')).status).toBe(404);
    expect((await electron.fetch(front, 'POST')).status).toBe(405);
  });

  test('grants the microphone to its window alone', async () => {
    const { electron, contents } = await startWithWindow();
    const details = { isMainFrame: true, requestingUrl: front, mediaTypes: ['audio'] } as E.MediaAccessPermissionRequest;
    const granted = (asking: E.WebContents): Promise<boolean> =>
      new Promise((answer) => electron.session.permissionRequest(asking, 'media', answer, details));
    expect(await granted(contents)).toBe(true);
    expect(await granted({ id: 99 } as E.WebContents)).toBe(false);
    expect(electron.session.beforeRequest('https://example.org/')).toBe(false);
  });

  test('guards every page, the window’s own included', async () => {
    const { contents } = await startWithWindow();
    const preventDefault = vi.fn();
    contents.emit('will-navigate', {
      url: 'https://example.org/',
      preventDefault,
    });
    expect(preventDefault).toHaveBeenCalledOnce();
  });

  test('brings the window forward when it is started a second time', async () => {
    const { electron } = await startWithWindow();
    electron.emitApp('second-instance');
    expect(electron.calls.slice(-3)).toEqual([['restore'], ['show'], ['focus']]);
  });

  test('keeps the window’s place when it closes', async () => {
    const { folder, window } = await startWithWindow();
    window.window.emit('close');
    const kept = await vi.waitUntil(() => readFile(join(folder, 'window.json'), 'utf8').catch(() => null));
    expect(JSON.parse(kept)).toEqual({ x: 10, y: 20, width: 900, height: 700, maximised: false });
  });
});

describe('a start in Electron that cannot go on', () => {
  test('a second time on the same data folder leaves at once, without a window', async () => {
    const [electron, folder] = [makeElectron({ hasLock: false }), await temporaryFolder()];
    await start(electron, folder);
    expect(electron.windows).toEqual([]);
    expect(electron.calls.at(-1)).toEqual(['quit']);
  });

  test('while the desk holds the library says so and ends', async () => {
    const [electron, folder] = [makeElectron(), await temporaryFolder()];
    await mkdir(folder, { recursive: true });
    const held = await openLibrary(folder, () => evening);
    vi.spyOn(console, 'error').mockImplementation(() => undefined);
    onTestFinished(() => void vi.restoreAllMocks());
    await start(electron, folder);
    await vi.waitUntil(() => electron.calls.some(([name]) => name === 'exit'), { timeout: 10_000 });
    expect(electron.calls).toContainEqual([
      'showErrorBox',
      'Stillstring',
      'Another program is holding the library. Close it and try again.',
    ]);
    expect(electron.calls).toContainEqual(['exit', 1]);
    await held.close();
  });
});
