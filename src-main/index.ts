// Electron's start, in order, and nothing else. What each step does stands in window/ and service/.

import { join } from 'node:path';
import { app, BrowserWindow, dialog, ipcMain, Menu, protocol, screen, session, systemPreferences } from 'electron';
import { HostFailure } from '#shared/contract/index.ts';
import { dataFolder } from './data-folder.ts';
import { applicationRoot, makePages } from './pages/index.ts';
import { startService } from './service/index.ts';
import { startOptions } from './start-options.ts';
import * as own from './window/index.ts';

const demo = process.argv.includes('--demo');
const folder = dataFolder(demo);
let window: BrowserWindow | null = null;

/** Tells launch.ts, which started us, how far we are. */
const tellLauncher = (message: 'window-ready' | 'refused'): void => void process.send?.(message);

function giveUp(fault: unknown): void {
  tellLauncher('refused');
  const sentence = fault instanceof HostFailure ? fault.message : `Stillstring could not start: ${String(fault)}`;
  console.error(sentence);
  dialog.showErrorBox('Stillstring', sentence);
  app.exit(1);
}

async function start(): Promise<void> {
  Menu.setApplicationMenu(Menu.buildFromTemplate(own.menuTemplate(process.platform, app.isPackaged)));
  const options = await startOptions('electron', demo);
  own.servePages(protocol, makePages({ web: options.webRoot, recordings: options.recordings }, null));
  own.refuseOtherAddresses(session.defaultSession);
  own.grantOnlyWhatIsNeeded(session.defaultSession, {
    isOurs: (contents) => contents.id === window?.webContents.id,
    platform: process.platform,
    system: systemPreferences,
  });
  const [first, ...others] = [screen.getPrimaryDisplay(), ...screen.getAllDisplays()].map(({ workArea }) => workArea);
  if (first === undefined) throw new Error('there is no screen');
  window = own.openWindow(BrowserWindow, {
    place: own.bringOnScreen(await own.readWindowPlace(folder), [first, ...others]),
    preload: join(applicationRoot(), 'out', 'preload', 'index.cjs'),
    onShown: () => tellLauncher('window-ready'),
    onClose: (place) => void own.writeWindowPlace(folder, place).catch(options.onFault),
  });
  // The library is opened while the page loads; requests that come before it is open wait at the gate.
  const service = startService({ ...options, raise: () => own.raise(window) });
  own.answerPage(ipcMain, window.webContents, service);
  app.on('window-all-closed', () => void service.then((opened) => opened.close()).finally(() => app.quit()));
  await Promise.all([service, window.loadURL(own.frontPage)]);
}

app.enableSandbox();
own.registerScheme(protocol);
own.nameForNotifications(app, process.platform);
// The browser engine's own files stay beside the library, in a folder of theirs; the single-instance lock goes with it.
app.setPath('userData', join(folder, 'window'));

if (app.requestSingleInstanceLock()) {
  app.on('second-instance', () => own.raise(window));
  app.on('web-contents-created', (_event, contents) => own.guardContents(contents));
  app.whenReady().then(start).catch(giveUp);
} else {
  tellLauncher('window-ready');
  app.quit();
}
