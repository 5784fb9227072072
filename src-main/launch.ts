// Launch: `npm start`. The Electron window where it can be had, else the desk, and a sentence that says why.
//   --browser   the desk, even where there is Electron
//   --demo      the demo library in a folder of its own, with a recording as the microphone
// STILLSTRING_DATA and STILLSTRING_PORT set the data folder and the desk's port; STILLSTRING_NO_BROWSER=1 only prints the address;
// STILLSTRING_TIMES=1 prints how long the start took.

import { HostFailure } from '#shared/contract/index.ts';
import { openDesk, preferredPort } from './desk.ts';
import { hasDisplay, openBrowser } from './launch/browser.ts';
import { downloadElectron, findElectron, runWindow } from './launch/electron.ts';
import { applicationRoot } from './pages/index.ts';
import { startOptions } from './start-options.ts';

const args = process.argv.slice(2);
const demo = args.includes('--demo');

function portWanted(): number {
  const given = process.env['STILLSTRING_PORT'];
  const port = given === undefined ? preferredPort : Number(given);
  if (!Number.isInteger(port) || port < 0 || port > 65_535) throw new HostFailure('bad-input', `STILLSTRING_PORT is no port: ${given}`);
  return port;
}

async function startDesk(): Promise<void> {
  const desk = await openDesk({ ...(await startOptions('desk', demo)), port: portWanted() });
  const { close } = desk;
  if (process.env['STILLSTRING_TIMES'] === '1') console.log(`Ready after ${Math.round(process.uptime() * 1000)} ms.`);
  console.log(
    close === null ? 'Stillstring is running already:' : 'Stillstring is at the desk, for a browser on this computer (Ctrl+C ends it):',
  );
  console.log(`\n  ${desk.address}\n`);
  if (close !== null) for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => void close());
  if (hasDisplay() && process.env['STILLSTRING_NO_BROWSER'] !== '1' && !(await openBrowser(desk.address)))
    console.log('Open this address in a browser.');
}

/** Why there is no window: a sentence that fits after “no window:”; or the exit code of the one that there was. */
async function tryWindow(): Promise<{ readonly exitCode: number } | { readonly sentence: string }> {
  if (!hasDisplay()) return { sentence: 'there is no display here' };
  const root = applicationRoot();
  const present = findElectron(root);
  if (present !== null) return runWindow(present, root, demo ? ['--demo'] : []);
  console.log('Fetching Electron for the window, once (about 100 MB; `npm start -- --browser` goes without) …');
  const fetched = await downloadElectron(root);
  return 'binary' in fetched ? runWindow(fetched.binary, root, demo ? ['--demo'] : []) : fetched;
}

async function launch(): Promise<void> {
  if (args.includes('--browser')) return startDesk();
  const window = await tryWindow();
  if ('exitCode' in window) {
    process.exitCode = window.exitCode;
    return;
  }
  console.log(`No Electron window: ${window.sentence}.`);
  await startDesk();
}

launch().catch((fault: unknown) => {
  // What a player can act on is a sentence; anything else is a fault of ours and shows where.
  console.error(fault instanceof HostFailure ? fault.message : fault);
  process.exitCode = 1;
});
