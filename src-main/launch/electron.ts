import { spawn } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

const downloadSeconds = 60;

/**
 * The Electron binary of this copy, or null. It is looked up by Electron's own note of where it lies: asking the package itself would start
 * a download.
 */
export function findElectron(root: string): string | null {
  const electron = join(root, 'node_modules', 'electron');
  const note = join(electron, 'path.txt');
  if (!existsSync(note)) return null;
  const binary = join(electron, 'dist', readFileSync(note, 'utf8').trim());
  return existsSync(binary) ? binary : null;
}

/** Fetches the Electron binary with its own installer. Returns its path, or why it could not be had. */
export function downloadElectron(root: string): Promise<{ readonly binary: string } | { readonly sentence: string }> {
  const installer = join(root, 'node_modules', 'electron', 'install.js');
  if (!existsSync(installer)) return Promise.resolve({ sentence: 'Electron is not among the installed packages' });
  const behindProxy = process.env['HTTPS_PROXY'] ?? process.env['https_proxy'];
  return new Promise((resolve) => {
    const run = spawn(process.execPath, [installer], {
      stdio: ['ignore', 'ignore', 'pipe'],
      timeout: downloadSeconds * 1000,
      env: { ...process.env, ...(behindProxy === undefined ? {} : { ELECTRON_GET_USE_PROXY: '1' }) },
    });
    let complaint = '';
    run.stderr.on('data', (text: Buffer) => (complaint += text.toString('utf8')));
    run.once('error', (fault) => resolve({ sentence: `its installer could not be started (${fault.message})` }));
    run.once('close', (_code, signal) => {
      const binary = findElectron(root);
      if (binary !== null) return resolve({ binary });
      const [firstLine = ''] = complaint.trim().split('\n');
      // All that the installer says of a network that is not there.
      const why = firstLine.includes('fetch failed') ? 'the place that it comes from does not answer' : firstLine;
      resolve({
        sentence: signal === null ? `it could not be downloaded (${why})` : `its download took longer than ${downloadSeconds} seconds`,
      });
    });
  });
}

/** What Electron says where it cannot show a window, and what that means. */
const complaints: readonly (readonly [RegExp, string])[] = [
  [/no-sandbox|SUID sandbox|sandbox_host/i, 'its sandbox cannot be used here (as root, or by this system’s settings)'],
  [/Missing X server|cannot open display|ozone/i, 'it found no display'],
  [/error while loading shared libraries: (\S+?):/i, 'a system library that it needs is missing'],
  [/node:sqlite/i, 'this Electron has no SQLite'],
];

/** How a run of the window ended: with an exit code of the app's own, or before its window was ready. */
export type WindowRun = { readonly exitCode: number } | { readonly sentence: string };

/** Runs the Electron window until it is closed. One that ends before it said that its window is ready could not start. */
export function runWindow(binary: string, root: string, args: readonly string[]): Promise<WindowRun> {
  const { ELECTRON_RUN_AS_NODE: _, ...environment } = process.env;
  return new Promise((resolve) => {
    const window = spawn(binary, [root, ...args], { stdio: ['inherit', 'inherit', 'pipe', 'ipc'], env: environment });
    let isReady = false;
    let complaint = '';
    window.stderr?.on('data', (text: Buffer) => {
      complaint = (complaint + text.toString('utf8')).slice(-20_000);
      if (isReady) process.stderr.write(text);
    });
    window.on('message', (message) => {
      if (message === 'window-ready') isReady = true;
      // The app says itself why it does not open, a newer library for one: that is no fault of Electron's.
      if (message === 'refused') isReady = true;
    });
    window.once('error', (fault) => resolve({ sentence: `it could not be started (${fault.message})` }));
    window.once('close', (code) => {
      if (isReady) return resolve({ exitCode: code ?? 1 });
      const known = complaints.find(([pattern]) => pattern.test(complaint));
      resolve({ sentence: known?.[1] ?? `it ended before its window was ready (exit code ${code ?? 'none'})` });
    });
  });
}
