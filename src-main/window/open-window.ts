import type { BrowserWindow, BrowserWindowConstructorOptions } from 'electron';
import type { WindowPlace } from './window-place.ts';

type Opening = {
  readonly place: WindowPlace;
  readonly preload: string;
  /** Called when the page is first painted and the window shown. */
  readonly onShown: () => void;
  /** Called with the place that the window is closed at. */
  readonly onClose: (place: WindowPlace) => void;
};

/** Makes the window, hidden until its page is painted. What keeps the page apart from the system is stated, not left to defaults. */
export function openWindow(
  Window: new (options: BrowserWindowConstructorOptions) => BrowserWindow,
  { place, preload, onShown, onClose }: Opening,
): BrowserWindow {
  const { maximised, ...bounds } = place;
  const window = new Window({
    ...bounds,
    minWidth: 360,
    minHeight: 480,
    show: false,
    title: 'Stillstring',
    webPreferences: {
      preload,
      sandbox: true,
      contextIsolation: true,
      nodeIntegration: false,
      nodeIntegrationInWorker: false,
      nodeIntegrationInSubFrames: false,
      webSecurity: true,
      webviewTag: false,
      spellcheck: false,
      // A covered window must go on listening to the instrument.
      backgroundThrottling: false,
    },
  });
  window.once('ready-to-show', () => {
    if (maximised) window.maximize();
    window.show();
    onShown();
  });
  window.on('close', () => onClose({ ...window.getNormalBounds(), maximised: window.isMaximized() }));
  return window;
}
