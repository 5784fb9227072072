import type * as E from 'electron';
import { describe, expect, test, vi } from 'vitest';
import { grantOnlyWhatIsNeeded, guardContents, refuseOtherAddresses, answerPage } from '../../../../src-main/window/index.ts';
import { isOwnAddress } from '../../../../src-main/window/own-address.ts';
import type { Service } from '../../../../src-main/service/index.ts';
import { fakeContents, strict } from '../../../support/electron-fake.ts';

const front = 'app://stillstring/';

describe('an address is our own', () => {
  test.each([
    [front, true],
    ['app://stillstring/index.html#/retune', true],
    ['app://stillstring.example/', false],
    ['app://other/', false],
    ['app://user@stillstring/', false],
    ['app://stillstring:1/', false],
    ['file:///stillstring/index.html', false],
    ['http://stillstring/', false],
    ['https://example.org/?app://stillstring/', false],
    ['about:blank', false],
    ['', false],
    ['stillstring', false],
  ])('%s: %s', (address, own) => {
    expect(isOwnAddress(address)).toBe(own);
  });
});

type RequestHandler = NonNullable<Parameters<E.Session['setPermissionRequestHandler']>[0]>;
type CheckHandler = NonNullable<Parameters<E.Session['setPermissionCheckHandler']>[0]>;
type DeviceHandler = NonNullable<Parameters<E.Session['setDevicePermissionHandler']>[0]>;

function permissions(platform: NodeJS.Platform = 'linux', systemSays: () => Promise<boolean> = () => Promise.resolve(true)) {
  let request: RequestHandler | null = null;
  let check: CheckHandler | null = null;
  let device: DeviceHandler | null = null;
  const ours = fakeContents(1).contents;
  const session = {
    setPermissionRequestHandler: (handler) => (request = handler),
    setPermissionCheckHandler: (handler) => (check = handler),
    setDevicePermissionHandler: (handler) => (device = handler),
  } satisfies Partial<E.Session>;
  const askForMediaAccess = vi.fn(systemSays);
  grantOnlyWhatIsNeeded(strict<E.Session>('session', session), { isOurs: ({ id }) => id === 1, platform, system: { askForMediaAccess } });
  return {
    ours,
    askForMediaAccess,
    device: device as unknown as DeviceHandler,
    requested: (permission: string, details: object, contents = ours): Promise<boolean> =>
      new Promise((answer) =>
        (request as unknown as RequestHandler)(contents, permission as 'media', answer, details as E.MediaAccessPermissionRequest),
      ),
    checked: (permission: string, origin: string, details: object, contents: E.WebContents | null = ours): boolean =>
      (check as unknown as CheckHandler)(contents, permission as 'media', origin, details as E.PermissionCheckHandlerHandlerDetails),
  };
}

const microphone = { isMainFrame: true, requestingUrl: front, mediaTypes: ['audio'] };

describe('a permission that is asked for', () => {
  test('is granted to our own main frame for the microphone', async () => {
    expect(await permissions().requested('media', microphone)).toBe(true);
  });

  test.each([
    ['the camera', 'media', { ...microphone, mediaTypes: ['video'] }],
    ['the microphone together with the camera', 'media', { ...microphone, mediaTypes: ['audio', 'video'] }],
    ['no medium by name', 'media', { ...microphone, mediaTypes: [] }],
    ['a medium that is left open', 'media', { isMainFrame: true, requestingUrl: front }],
    ['the microphone by a frame inside', 'media', { ...microphone, isMainFrame: false }],
    ['the microphone by another page', 'media', { ...microphone, requestingUrl: 'https://example.org/' }],
    ['the microphone by a page of a like name', 'media', { ...microphone, requestingUrl: 'app://stillstring.example/' }],
    ...[
      'notifications',
      'geolocation',
      'midi',
      'midiSysex',
      'clipboard-read',
      'display-capture',
      'fullscreen',
      'openExternal',
      'fileSystem',
      'usb',
    ].map((permission) => [permission, permission, { isMainFrame: true, requestingUrl: front }] as const),
  ] as const)('is refused for %s', async (_what, permission, details) => {
    expect(await permissions().requested(permission, details)).toBe(false);
  });

  test('is refused to a window that is not ours', async () => {
    expect(await permissions().requested('media', microphone, fakeContents(2).contents)).toBe(false);
  });

  test('on macOS is what the system says, and refused where it says nothing', async () => {
    const granted = permissions('darwin');
    expect(await granted.requested('media', microphone)).toBe(true);
    expect(granted.askForMediaAccess).toHaveBeenCalledExactlyOnceWith('microphone');
    expect(await permissions('darwin', () => Promise.resolve(false)).requested('media', microphone)).toBe(false);
    expect(await permissions('darwin', () => Promise.reject(new Error('no answer'))).requested('media', microphone)).toBe(false);
    const refused = permissions('darwin');
    expect(await refused.requested('media', { ...microphone, mediaTypes: ['video'] })).toBe(false);
    expect(refused.askForMediaAccess).not.toHaveBeenCalled();
  });
});

describe('a permission that is checked', () => {
  test.each([
    ['our main frame and the microphone', 'media', front, { isMainFrame: true, mediaType: 'audio' }, true],
    ['the first check of a page, which names no medium', 'media', front, { isMainFrame: true, mediaType: 'unknown' }, true],
    ['the camera', 'media', front, { isMainFrame: true, mediaType: 'video' }, false],
    ['a frame inside', 'media', front, { isMainFrame: false, mediaType: 'audio' }, false],
    ['another page', 'media', 'https://example.org/', { isMainFrame: true, mediaType: 'audio' }, false],
    ['the serial port', 'serial', front, { isMainFrame: true }, false],
    ['the place on earth', 'geolocation', front, { isMainFrame: true }, false],
  ])('for %s', (_what, permission, origin, details, granted) => {
    expect(permissions().checked(permission, origin, details)).toBe(granted);
  });

  test('of reminders names no window, and is granted to our own pages alone', () => {
    expect(permissions().checked('notifications', front, { isMainFrame: true }, null)).toBe(true);
    expect(permissions().checked('notifications', 'https://example.org/', { isMainFrame: true }, null)).toBe(false);
  });

  test('is refused to a window that is not ours, and to none at all', () => {
    const details = { isMainFrame: true, mediaType: 'audio' };
    expect(permissions().checked('media', front, details, fakeContents(2).contents)).toBe(false);
    expect(permissions().checked('media', front, details, null)).toBe(false);
  });

  test('is refused for every device', () => {
    expect(permissions().device({ deviceType: 'usb', origin: front } as E.DevicePermissionHandlerHandlerDetails)).toBe(false);
  });
});

const prevented = (event: string, details: object): boolean => {
  const page = fakeContents(1);
  guardContents(page.contents);
  const preventDefault = vi.fn();
  page.emit(event, { ...details, preventDefault });
  return preventDefault.mock.calls.length === 1;
};

describe('a page of ours', () => {
  test.each([
    ['leaving for another site', 'will-navigate', { url: 'https://example.org/' }, true],
    ['leaving for a file', 'will-navigate', { url: 'file:///etc/passwd' }, true],
    ['leaving for a page of a like name', 'will-navigate', { url: 'app://stillstring.example/' }, true],
    ['loading itself again', 'will-navigate', { url: front }, false],
    ['a frame inside, even of ours', 'will-frame-navigate', { url: front, isMainFrame: false }, true],
    ['the main frame leaving', 'will-frame-navigate', { url: 'https://example.org/', isMainFrame: true }, true],
    ['a redirection', 'will-redirect', { url: front }, true],
    ['a page within the page', 'will-attach-webview', {}, true],
  ])('%s by %s of %j is prevented: %s', (_what, event, details, isPrevented) => {
    expect(prevented(event, details)).toBe(isPrevented);
  });

  test('opens no windows', () => {
    const page = fakeContents(1);
    guardContents(page.contents);
    expect([page.open(front), page.open('https://example.org/')]).toEqual([{ action: 'deny' }, { action: 'deny' }]);
  });

  test.each([
    [`${front}assets/main.js`, true],
    ['data:image/svg+xml,<svg/>', true],
    ['blob:app://stillstring/0b2f', true],
    ['devtools://devtools/bundled/inspector.html', true],
    ['https://example.org/', false],
    ['http://127.0.0.1:47113/', false],
    ['ws://example.org/', false],
    ['file:///etc/passwd', false],
    ['app://other/', false],
  ])('asks for %s: %s', (url, allowed) => {
    let cancelled: boolean | undefined;
    const onBeforeRequest = (listener: (details: { url: string }, answer: (response: { cancel?: boolean }) => void) => void): void =>
      listener({ url }, ({ cancel }) => (cancelled = cancel));
    refuseOtherAddresses({ webRequest: strict<E.WebRequest>('webRequest', { onBeforeRequest }) });
    expect(cancelled).toBe(!allowed);
  });
});

describe('the gate', () => {
  const answered = { ok: true, value: 'answered' } as const;
  function gate() {
    let handler: Parameters<E.IpcMain['handle']>[1] | null = null;
    let tell: Parameters<Service['onChanged']>[0] | null = null;
    const sent: unknown[][] = [];
    const { contents } = fakeContents(1, (...values) => sent.push(values));
    const answer = vi.fn(() => Promise.resolve(answered));
    const service: Service = {
      answer,
      onChanged: (listener) => {
        tell = listener;
        return () => undefined;
      },
      close: () => Promise.resolve(),
    };
    const ipc = strict<E.IpcMain>('ipcMain', { handle: (_channel, listener) => (handler = listener) } satisfies Partial<E.IpcMain>);
    const opened = Promise.resolve(service);
    answerPage(ipc, contents, opened);
    const ask = (sender: E.WebContents, frame: Partial<E.WebFrameMain> | null): unknown =>
      handler?.({ sender, senderFrame: frame } as E.IpcMainInvokeEvent, 'songs.list', {});
    return { ask, contents, answer, sent, opened, push: (parts: 'log'[]) => tell?.({ parts }) };
  }
  const mainFrame: Partial<E.WebFrameMain> = { parent: null, url: front };

  test('answers the main frame of our window', async () => {
    const { ask, contents, answer } = gate();
    expect(await ask(contents, mainFrame)).toEqual(answered);
    expect(answer).toHaveBeenCalledExactlyOnceWith('songs.list', {});
  });

  test.each([
    ['a frame inside', 1, { parent: {} as E.WebFrameMain, url: front }],
    ['another page in our window', 1, { parent: null, url: 'https://example.org/' }],
    ['a page of a like name', 1, { parent: null, url: 'app://stillstring.example/' }],
    ['a frame that is gone', 1, null],
    ['another window', 2, mainFrame],
  ])('turns %s away with a code, and the services hear nothing of it', async (_what, id, frame) => {
    const { ask, answer } = gate();
    expect(await ask(fakeContents(id).contents, frame)).toMatchObject({ ok: false, failure: { code: 'not-allowed' } });
    expect(answer).not.toHaveBeenCalled();
  });

  test('passes on what changed', async () => {
    const { opened, push, sent } = gate();
    await opened;
    await Promise.resolve();
    push(['log']);
    expect(sent).toEqual([['stillstring:push', 'changed', { parts: ['log'] }]]);
  });
});
