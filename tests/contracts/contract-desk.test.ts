import { describe, expect, onTestFinished, test, vi } from 'vitest';
import { WebSocket } from 'ws';
import { type Host, libraryParts } from '#shared/contract/index.ts';
import type * as client from '../../src-renderer/host/index.ts';
import { authorityOf, launchTokenOf, openTestDesk } from '../support/host-desk.ts';
import { temporaryFolder, tuning } from '../support/host.ts';

type Client = typeof client;

const realFetch = globalThis.fetch;

type Page = {
  readonly client: Client;
  readonly storage: Map<string, string>;
  readonly location: { readonly hash: string };
  readonly sockets: readonly WebSocket[];
};

/** The renderer's client as in a page of that address: its own module, its own session storage. */
async function openPage(address: string, storage = new Map<string, string>()): Promise<Page> {
  const { host, origin, hash } = new URL(address);
  const sockets: WebSocket[] = [];
  const location = { host, hash, pathname: '/' };
  vi.stubGlobal('location', location);
  vi.stubGlobal('history', { replaceState: () => (location.hash = '') });
  vi.stubGlobal('sessionStorage', {
    getItem: (key: string) => storage.get(key) ?? null,
    setItem: (key: string, value: string) => storage.set(key, value),
  });
  vi.stubGlobal(
    'WebSocket',
    class extends WebSocket {
      constructor(to: string, protocols: string[]) {
        super(to, protocols, { origin });
        this.on('error', () => undefined);
        sockets.push(this);
      }
    },
  );
  vi.stubGlobal('fetch', (path: string, options: RequestInit) => realFetch(`${origin}${path}`, options));
  onTestFinished(() => {
    // Leaves the page: it must not try to come back to a desk that is closed after it.
    for (const socket of sockets) socket.removeAllListeners('close').terminate();
    vi.unstubAllGlobals();
  });
  vi.resetModules();
  return { client: await import('../../src-renderer/host/index.ts'), storage, location, sockets };
}

const connected = (client: Client, wanted: string): Promise<void> =>
  new Promise((resolve) => {
    const off = client.onConnection(() => {
      if (client.connection() !== wanted) return;
      off();
      resolve();
    });
    if (client.connection() === wanted) resolve();
  });

const nextPush = (host: Host): Promise<unknown> =>
  new Promise((resolve) => {
    const off = host.on('changed', (push) => {
      off();
      resolve(push);
    });
  });

describe('the client over the desk', () => {
  test('asks, hears what changed, and takes the launch token out of the address', async () => {
    const desk = await openTestDesk(await temporaryFolder());
    const { client, storage, location } = await openPage(desk.address);
    const host = await client.openHost();
    expect([client.connection(), location.hash, storage.size]).toEqual(['open', '', 1]);
    const pushed = nextPush(host);
    expect(await host.ask('tunings.save', tuning)).toEqual(tuning);
    expect(await host.ask('tunings.list', {})).toEqual([tuning]);
    expect(await pushed).toEqual({ parts: ['tunings'] });
  });

  test('gives a refusal as a failure with its code and sentence', async () => {
    const desk = await openTestDesk(await temporaryFolder());
    const { client } = await openPage(desk.address);
    const host = await client.openHost();
    const refusal = await host.ask('tunings.remove', { id: 'lost' }).catch((failure: unknown) => failure);
    expect(refusal).toMatchObject({ name: 'HostFailure', code: 'not-found', message: 'This is no longer in the library.' });
  });

  test('opens again on reload with its session, and not on a copied address', async () => {
    const desk = await openTestDesk(await temporaryFolder());
    const first = await openPage(desk.address);
    await first.client.openHost();
    const origin = `http://${authorityOf(desk)}/`;
    const reloaded = await openPage(origin, first.storage);
    await reloaded.client.openHost();
    expect(reloaded.client.connection()).toBe('open');
    const typed = await openPage(origin);
    await expect(typed.client.openHost()).rejects.toMatchObject({ code: 'not-allowed' });
    const copied = await openPage(desk.address);
    await expect(copied.client.openHost()).rejects.toMatchObject({ code: 'not-allowed' });
    expect(launchTokenOf(desk.address)).not.toBe('');
  });

  test('comes back after a break, sends what waited, and says that everything may have changed', async () => {
    const desk = await openTestDesk(await temporaryFolder());
    const { client, sockets } = await openPage(desk.address);
    const host = await client.openHost();
    const pushed = nextPush(host);
    const lost = connected(client, 'lost');
    for (const socket of sockets) socket.terminate();
    const waited = host.ask('tunings.list', {});
    await lost;
    expect(await waited).toEqual([]);
    expect(client.connection()).toBe('open');
    expect(await pushed).toEqual({ parts: [...libraryParts] });
  });

  test('of a desk that was started anew is refused: its page must be opened again', async () => {
    const folder = await temporaryFolder();
    const desk = await openTestDesk(folder);
    const { client } = await openPage(desk.address);
    const host = await client.openHost();
    const lost = connected(client, 'lost');
    await desk.close?.();
    await lost;
    const waited = host.ask('tunings.list', {});
    const refused = expect(waited).rejects.toMatchObject({ code: 'not-allowed' });
    await openTestDesk(folder, Number(new URL(desk.address).port));
    await refused;
    expect(client.connection()).toBe('refused');
  });
});
