// A stand-in for Electron's main process: its types are the real ones, so that a renamed API fails to compile, and it models rules, not looks:
// what must come before `ready`, one handler for each channel, only data that can be cloned across the border. A member that is not modelled throws.
// It cannot say that Electron behaves as modelled; only a run in Electron can.

import { EventEmitter } from 'node:events';
import type * as E from 'electron';

/** The model, and an error for everything that it leaves out. */
export function strict<Real extends object>(name: string, model: Partial<Record<keyof Real, unknown>>): Real {
  return new Proxy(model, {
    get(target, member, receiver) {
      // A promise asks every value whether it can be waited for.
      if (member in target || typeof member === 'symbol' || member === 'then') return Reflect.get(target, member, receiver) as unknown;
      throw new Error(`the fake does not model ${name}.${member}`);
    },
  }) as Real;
}

/** A model with Electron's events. */
const emitting = <Model extends object>(model: Model): EventEmitter & Model => Object.assign(new EventEmitter(), model);

type Rectangle = E.Rectangle;
const display = (workArea: Rectangle): E.Display => ({ workArea }) as E.Display;

type Sender = { readonly contents: E.WebContents; readonly frame: Partial<E.WebFrameMain> | null };

export type FakeElectron = {
  /** What `import … from 'electron'` gives. */
  readonly module: object;
  readonly windows: readonly {
    readonly options: E.BrowserWindowConstructorOptions;
    readonly window: E.BrowserWindow;
    readonly loaded: readonly string[];
  }[];
  /** What was told to the app, the dialogs and the pages, in order. */
  readonly calls: readonly (readonly [string, ...unknown[]])[];
  readonly session: {
    permissionRequest: NonNullable<Parameters<E.Session['setPermissionRequestHandler']>[0]>;
    permissionCheck: NonNullable<Parameters<E.Session['setPermissionCheckHandler']>[0]>;
    devicePermission: NonNullable<Parameters<E.Session['setDevicePermissionHandler']>[0]>;
    beforeRequest: (url: string) => boolean;
  };
  becomeReady(): void;
  emitApp(event: string, ...values: unknown[]): void;
  /** Asks over an IPC channel as a page does. */
  invoke(channel: string, sender: Sender, ...values: readonly unknown[]): Promise<unknown>;
  /** Asks for an address of a scheme of ours. */
  fetch(address: string, method?: string): Promise<Response>;
};

type Circumstances = { readonly hasLock?: boolean; readonly displays?: readonly Rectangle[]; readonly microphoneGranted?: boolean };

/** A web contents that remembers what was sent to it. Its events can be emitted. */
export function fakeContents(id: number, sent: (channel: string, ...values: unknown[]) => void = () => undefined) {
  let openHandler: Parameters<E.WebContents['setWindowOpenHandler']>[0] | null = null;
  const model = emitting({
    id,
    isDestroyed: () => false,
    send: (channel: string, ...values: unknown[]) => sent(channel, ...structuredClone(values)),
    setWindowOpenHandler: (handler: Parameters<E.WebContents['setWindowOpenHandler']>[0]) => {
      openHandler = handler;
    },
  } satisfies Partial<E.WebContents>);
  return {
    contents: strict<E.WebContents>('webContents', model),
    emit: (event: string, ...values: unknown[]) => model.emit(event, ...values),
    open: (url: string) => openHandler?.({ url } as E.HandlerDetails),
  };
}

export function makeElectron({
  hasLock = true,
  displays = [{ x: 0, y: 0, width: 1920, height: 1040 }],
  microphoneGranted = true,
}: Circumstances = {}): FakeElectron {
  let isReady = false;
  const becameReady = Promise.withResolvers<void>();
  const calls: [string, ...unknown[]][] = [];
  const windows: { options: E.BrowserWindowConstructorOptions; window: E.BrowserWindow; loaded: string[] }[] = [];
  const channels = new Map<string, Parameters<E.IpcMain['handle']>[1]>();
  const schemes = new Map<string, Parameters<E.Protocol['handle']>[1]>();
  const session: Partial<FakeElectron['session']> = {};
  const record =
    (name: string) =>
    (...values: unknown[]): void =>
      void calls.push([name, ...values]);
  const mustBeReady = (what: string): void => {
    if (!isReady) throw new Error(`${what} before the app is ready`);
  };
  const mustNotBeReady = (what: string): void => {
    if (isReady) throw new Error(`${what} after the app is ready`);
  };

  const app = emitting({
    isPackaged: false,
    enableSandbox() {
      mustNotBeReady('enableSandbox');
      calls.push(['enableSandbox']);
    },
    setPath(name: string, path: string) {
      mustNotBeReady('setPath');
      calls.push(['setPath', name, path]);
    },
    requestSingleInstanceLock: () => hasLock,
    whenReady: () => becameReady.promise,
    quit: record('quit'),
    exit: record('exit'),
  } satisfies Partial<E.App>);

  const protocol = {
    registerSchemesAsPrivileged(custom) {
      mustNotBeReady('registerSchemesAsPrivileged');
      calls.push(['registerSchemesAsPrivileged', custom]);
    },
    handle(scheme, handler) {
      mustBeReady('protocol.handle');
      if (schemes.has(scheme)) throw new Error(`a second handler for ${scheme}`);
      schemes.set(scheme, handler);
    },
  } satisfies Partial<E.Protocol>;

  const ipcMain = {
    handle(channel, listener) {
      if (channels.has(channel)) throw new Error(`a second handler for ${channel}`);
      channels.set(channel, listener);
    },
  } satisfies Partial<E.IpcMain>;

  const defaultSession = {
    setPermissionRequestHandler: (handler) => void (handler === null || (session.permissionRequest = handler)),
    setPermissionCheckHandler: (handler) => void (handler === null || (session.permissionCheck = handler)),
    setDevicePermissionHandler: (handler) => void (handler === null || (session.devicePermission = handler)),
    webRequest: strict<E.WebRequest>('webRequest', {
      onBeforeRequest(listener: (details: E.OnBeforeRequestListenerDetails, answer: (response: E.CallbackResponse) => void) => void) {
        session.beforeRequest = (url) => {
          let isCancelled = false;
          listener({ url } as E.OnBeforeRequestListenerDetails, ({ cancel }) => (isCancelled = cancel ?? false));
          return !isCancelled;
        };
      },
    }),
  } satisfies Partial<E.Session>;

  const screen = {
    getPrimaryDisplay() {
      mustBeReady('screen.getPrimaryDisplay');
      return display(displays[0]!);
    },
    getAllDisplays: () => displays.map(display),
  } satisfies Partial<E.Screen>;

  function BrowserWindow(options: E.BrowserWindowConstructorOptions): E.BrowserWindow {
    mustBeReady('BrowserWindow');
    const loaded: string[] = [];
    const { contents } = fakeContents(windows.length + 1, record('send'));
    const model = emitting({
      webContents: contents,
      loadURL(address: string) {
        loaded.push(address);
        return Promise.resolve();
      },
      show: record('show'),
      focus: record('focus'),
      restore: record('restore'),
      maximize: record('maximize'),
      isMinimized: () => true,
      isMaximized: () => false,
      getNormalBounds: () => ({ x: 10, y: 20, width: 900, height: 700 }),
    } satisfies Partial<E.BrowserWindow>);
    const window = strict<E.BrowserWindow>('BrowserWindow', model);
    windows.push({ options, window, loaded });
    app.emit('web-contents-created', {}, contents);
    return window;
  }

  return {
    module: strict('electron', {
      BrowserWindow,
      app: strict<E.App>('app', app),
      dialog: strict<E.Dialog>('dialog', { showErrorBox: record('showErrorBox') } satisfies Partial<E.Dialog>),
      ipcMain: strict<E.IpcMain>('ipcMain', ipcMain),
      Menu: strict<typeof E.Menu>('Menu', {
        buildFromTemplate: (template: E.MenuItemConstructorOptions[]) => template as unknown as E.Menu,
        setApplicationMenu: record('setApplicationMenu'),
      } satisfies Partial<typeof E.Menu>),
      protocol: strict<E.Protocol>('protocol', protocol),
      screen: strict<E.Screen>('screen', screen),
      session: strict<typeof E.session>('session', {
        defaultSession: strict<E.Session>('defaultSession', defaultSession),
      } satisfies Partial<typeof E.session>),
      systemPreferences: strict<E.SystemPreferences>('systemPreferences', {
        askForMediaAccess: () => Promise.resolve(microphoneGranted),
      } satisfies Partial<E.SystemPreferences>),
    }),
    windows,
    calls,
    session: strict<FakeElectron['session']>('session handlers', session),
    becomeReady() {
      isReady = true;
      becameReady.resolve();
    },
    emitApp: (event, ...values) => void app.emit(event, ...values),
    async invoke(channel, { contents, frame }, ...values) {
      const handler = channels.get(channel);
      if (handler === undefined) throw new Error(`no handler for ${channel}`);
      const event = { sender: contents, senderFrame: frame } as E.IpcMainInvokeEvent;
      return structuredClone(await (handler(event, ...(structuredClone(values) as unknown[])) as unknown));
    },
    async fetch(address, method = 'GET') {
      const handler = schemes.get(new URL(address).protocol.slice(0, -1));
      if (handler === undefined) throw new Error(`no handler for ${address}`);
      return handler({ url: address, method } as Request);
    },
  };
}
