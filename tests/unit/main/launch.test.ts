import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, onTestFinished, test } from 'vitest';
import { hasDisplay } from '../../../src-main/launch/browser.ts';
import { downloadElectron, findElectron, runWindow } from '../../../src-main/launch/electron.ts';
import { temporaryFolder } from '../../support/host.ts';

const launch = join(import.meta.dirname, '..', '..', '..', 'src-main', 'launch.ts');

describe('the Electron binary', () => {
  test('is found by the package’s own note, and only if it is there', async () => {
    const root = await temporaryFolder();
    const electron = join(root, 'node_modules', 'electron');
    expect(findElectron(root)).toBeNull();
    await mkdir(join(electron, 'dist'), { recursive: true });
    await writeFile(join(electron, 'path.txt'), 'electron');
    expect(findElectron(root)).toBeNull();
    await writeFile(join(electron, 'dist', 'electron'), '');
    expect(findElectron(root)).toBe(join(electron, 'dist', 'electron'));
  });

  test('that cannot be fetched is a sentence, not a stack of calls', async () => {
    const root = await temporaryFolder();
    const electron = join(root, 'node_modules', 'electron');
    await mkdir(electron, { recursive: true });
    expect(await downloadElectron(root)).toEqual({ sentence: 'Electron is not among the installed packages' });
    await writeFile(join(electron, 'install.js'), `console.error('TypeError: fetch failed\\n    at somewhere'); process.exit(1);`);
    expect(await downloadElectron(root)).toEqual({ sentence: 'it could not be downloaded (the place that it comes from does not answer)' });
    await writeFile(join(electron, 'install.js'), `console.error('Error: no space left'); process.exit(1);`);
    expect(await downloadElectron(root)).toEqual({ sentence: 'it could not be downloaded (Error: no space left)' });
  });

  test('that was fetched is used', async () => {
    const root = await temporaryFolder();
    const electron = join(root, 'node_modules', 'electron');
    await mkdir(join(electron, 'dist'), { recursive: true });
    await writeFile(
      join(electron, 'install.js'),
      `const { writeFileSync } = require('node:fs'); const { join } = require('node:path');
       writeFileSync(join(__dirname, 'dist', 'electron'), ''); writeFileSync(join(__dirname, 'path.txt'), 'electron');`,
    );
    expect(await downloadElectron(root)).toEqual({ binary: join(electron, 'dist', 'electron') });
  });
});

/** Node in Electron's place, running what the app would do. */
const run = async (script: string, args: readonly string[] = []) => {
  const app = join(await temporaryFolder(), 'app.cjs');
  await writeFile(app, script);
  return runWindow(process.execPath, app, args);
};

describe('the window', () => {
  const ready = `process.send('window-ready');`;

  test.each([
    ['closed by the player', `${ready} process.disconnect();`, { exitCode: 0 }],
    ['that ends with a fault of its own', `${ready} process.exitCode = 3; process.disconnect();`, { exitCode: 3 }],
    ['that says itself why it does not open', `process.send('refused'); process.exitCode = 1; process.disconnect();`, { exitCode: 1 }],
  ])('%s passes its exit code on', async (_what, script, ended) => {
    expect(await run(script)).toEqual(ended);
  });

  test.each([
    ['Running as root without --no-sandbox is not supported.', /sandbox cannot be used here/],
    ['The SUID sandbox helper binary was found, but is not configured correctly.', /sandbox cannot be used here/],
    ['Missing X server or $DISPLAY', /found no display/],
    [
      'electron: error while loading shared libraries: libnss3.so: cannot open shared object file',
      /system library that it needs is missing/,
    ],
    ['Error [ERR_UNKNOWN_BUILTIN_MODULE]: No such built-in module: node:sqlite', /no SQLite/],
    ['', /ended before its window was ready \(exit code 1\)/],
  ])('that dies saying “%s” could not start, in a plain sentence', async (complaint, sentence) => {
    expect(await run(`console.error(${JSON.stringify(complaint)}); process.exit(1);`)).toEqual({
      sentence: expect.stringMatching(sentence),
    });
  });

  test('is never asked to run without its sandbox, or as plain Node', async () => {
    const told = `${ready} process.exitCode = process.argv.includes('--no-sandbox') || 'ELECTRON_RUN_AS_NODE' in process.env ? 9 : 0; process.disconnect();`;
    process.env['ELECTRON_RUN_AS_NODE'] = '1';
    onTestFinished(() => void delete process.env['ELECTRON_RUN_AS_NODE']);
    expect(await run(told, ['--demo'])).toEqual({ exitCode: 0 });
  });

  test('that is no program at all could not be started', async () => {
    expect(await runWindow(join(await temporaryFolder(), 'electron'), '.', [])).toEqual({
      sentence: expect.stringContaining('could not be started'),
    });
  });
});

describe('a display', () => {
  test.each([
    ['linux', {}, false],
    ['linux', { DISPLAY: '' }, false],
    ['linux', { DISPLAY: ':0' }, true],
    ['linux', { WAYLAND_DISPLAY: 'wayland-0' }, true],
    ['darwin', {}, true],
    ['win32', {}, true],
  ] as const)('on %s with %j: %s', (platform, environment, has) => {
    expect(hasDisplay(environment, platform)).toBe(has);
  });
});

/** Starts as `npm start` does where there is no display. */
function startWithoutDisplay(
  folder: string,
  port = '0',
  ...args: string[]
): { readonly child: ChildProcess; readonly said: (pattern: RegExp) => Promise<string>; readonly ended: Promise<number | null> } {
  const { DISPLAY: _x, WAYLAND_DISPLAY: _wayland, ...environment } = process.env;
  const child = spawn(process.execPath, [launch, ...args], {
    env: { ...environment, STILLSTRING_DATA: folder, STILLSTRING_PORT: port },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  onTestFinished(() => void child.kill('SIGKILL'));
  let text = '';
  const said = (pattern: RegExp): Promise<string> =>
    new Promise((resolve, reject) => {
      const look = (): void => {
        const found = pattern.exec(text)?.[0];
        if (found !== undefined) resolve(found);
      };
      child.stdout.on('data', look);
      child.stderr.on('data', look);
      child.once('close', () => reject(new Error(`ended without saying ${pattern}: ${text}`)));
      look();
    });
  for (const stream of [child.stdout, child.stderr]) stream.on('data', (bytes: Buffer) => (text += bytes.toString('utf8')));
  return { child, said, ended: new Promise((resolve) => child.once('close', resolve)) };
}

const address = /http:\/\/127\.0\.0\.1:\d+\/#launch=[\w-]{43}/;

describe('a start without a display', () => {
  test('says why there is no window, prints the address, serves a second start, and ends tidily', async () => {
    const folder = await temporaryFolder();
    const first = startWithoutDisplay(folder);
    const opened = await first.said(address);
    expect(await first.said(/No Electron window: there is no display here\./)).toBeTruthy();
    const second = startWithoutDisplay(folder);
    const again = await second.said(address);
    expect(await second.ended).toBe(0);
    expect([new URL(again).host, again === opened]).toEqual([new URL(opened).host, false]);
    first.child.kill('SIGTERM');
    expect(await first.ended).toBe(0);
    expect([
      existsSync(join(folder, 'desk.json')),
      existsSync(join(folder, 'library.sqlite-wal')),
      existsSync(join(folder, 'library.sqlite')),
    ]).toEqual([false, false, true]);
  });

  test('on a port that is none is refused with a sentence', async () => {
    const start = startWithoutDisplay(await temporaryFolder(), 'seven', '--browser');
    expect(await start.said(/STILLSTRING_PORT is no port: seven/)).toBeTruthy();
    expect(await start.ended).toBe(1);
  });
});
