// The test command: `npm test` runs everything that can be tested on this machine, `npm run check` the quick part.
// Prints what each stage found, what was left out and why, and one closing line. Exit code 1 if anything failed.

import { type SpawnSyncReturns, spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { chromiumPath } from './support/chromium.ts';

const root = fileURLToPath(new URL('..', import.meta.url));
const results = new URL('../test-results/', import.meta.url);
/** On the project's own test machines nothing but Electron's part may be left out. */
const isStrict = process.env['CI'] !== undefined;

type Count = { passed: number; failed: number; skipped: number };
const total: Count = { passed: 0, failed: 0, skipped: 0 };
const leftOut: string[] = [];

const node = (...words: readonly string[]): SpawnSyncReturns<Buffer> => spawnSync(process.execPath, words, { cwd: root, stdio: 'inherit' });

/** A stage that only succeeds or fails. */
function stage(name: string, run: () => SpawnSyncReturns<Buffer>): void {
  console.log(`\n— ${name}`);
  const { status } = run();
  count(status === 0 ? { passed: 1, failed: 0, skipped: 0 } : { passed: 0, failed: 1, skipped: 0 });
}

function count({ passed, failed, skipped }: Count): void {
  total.passed += passed;
  total.failed += failed;
  total.skipped += skipped;
}

/** Test folders, run by vitest; its own report is read back. */
function vitest(...folders: readonly string[]): void {
  console.log(`\n— ${folders.join(', ')}`);
  const file = fileURLToPath(new URL('vitest.json', results));
  rmSync(file, { force: true });
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${file}`];
  const { status } = node(
    'node_modules/vitest/vitest.mjs',
    'run',
    '--config',
    'tests/vitest.config.ts',
    ...reporters,
    ...folders.map((folder) => `tests/${folder}/`),
  );
  const report = existsSync(file) ? (JSON.parse(readFileSync(file, 'utf8')) as VitestReport) : null;
  const failed = report?.numFailedTests ?? 0;
  count({ passed: report?.numPassedTests ?? 0, failed: status !== 0 && failed === 0 ? 1 : failed, skipped: report?.numPendingTests ?? 0 });
  for (const test of report?.testResults.flatMap(({ assertionResults }) => assertionResults) ?? []) {
    if (test.status === 'skipped' || test.status === 'pending') leftOut.push(test.fullName);
  }
}

type VitestReport = {
  readonly numPassedTests: number;
  readonly numFailedTests: number;
  readonly numPendingTests: number;
  readonly testResults: readonly { readonly assertionResults: readonly { readonly fullName: string; readonly status: string }[] }[];
};

/** The app in a browser, and in Electron where its binary is. */
function playwright(): void {
  console.log('\n— e2e');
  if (getChromium() === null) {
    leftOut.push('e2e: there is no Chromium, and none could be installed');
    count({ passed: 0, failed: isStrict ? 1 : 0, skipped: 1 });
    return;
  }
  const { status } = node('node_modules/playwright/cli.js', 'test', '-c', 'tests/playwright.config.ts');
  const file = new URL('e2e.json', results);
  const stats = existsSync(file)
    ? (
        JSON.parse(readFileSync(file, 'utf8')) as {
          readonly stats: { readonly expected: number; readonly unexpected: number; readonly flaky: number; readonly skipped: number };
        }
      ).stats
    : null;
  const failed = stats?.unexpected ?? 0;
  const secondTry = stats?.flaky ?? 0;
  if (secondTry > 0) leftOut.push(`${secondTry} e2e passed only at a second try`);
  count({ passed: (stats?.expected ?? 0) + secondTry, failed: status !== 0 && failed === 0 ? 1 : failed, skipped: stats?.skipped ?? 0 });
  if ((stats?.skipped ?? 0) > 0) leftOut.push('e2e on Electron: its binary is not on this machine');
}

/** Chromium as it is here; else Debian's package, where this is Debian and the tests run as root; else playwright's own download. */
function getChromium(): string | null {
  const present = chromiumPath();
  if (present !== null) return present;
  const asRoot = process.getuid?.() === 0 && existsSync('/usr/bin/apt-get');
  console.log(asRoot ? 'Installing Chromium from Debian …' : 'Fetching Chromium …');
  if (asRoot) {
    spawnSync('apt-get', ['update', '-qq'], { stdio: 'ignore' });
    spawnSync('apt-get', ['install', '-y', '-qq', '--no-install-recommends', 'chromium'], {
      stdio: 'ignore',
      env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
    });
  } else {
    spawnSync(process.execPath, ['node_modules/playwright/cli.js', 'install', 'chromium'], { cwd: root, stdio: 'ignore' });
  }
  return chromiumPath();
}

function check(): void {
  stage('types', () => node('node_modules/typescript/bin/tsc', '-b'));
  const folders = ['src-main', 'src-renderer', 'src-shared', 'tests', 'demo-data', 'electron.vite.config.ts'];
  stage('lint', () => node('node_modules/oxlint/bin/oxlint', '--type-aware', '--deny-warnings', ...folders));
  stage('format', () => node('node_modules/oxfmt/bin/oxfmt', '--check', ...folders));
  stage('build', () => node('node_modules/electron-vite/bin/electron-vite.js', 'build', '--logLevel', 'error'));
  vitest('architecture', 'unit', 'contracts', 'pipeline');
}

mkdirSync(results, { recursive: true });
check();
if (process.argv[2] !== 'check') {
  vitest('library', 'published');
  playwright();
}
if (leftOut.length > 0) console.log(`\nLeft out:\n${leftOut.map((name) => `  ${name}`).join('\n')}`);
console.log(`\ntotal: ${total.passed} passed, ${total.failed} failed, ${total.skipped} skipped`);
process.exitCode = total.failed === 0 ? 0 : 1;
