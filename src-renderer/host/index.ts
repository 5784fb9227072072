// Host: the renderer's end of the contract, over Electron's bridge or over the desk's socket.
// Knows: which of the two is there, how the connection stands. Must not know: what is asked, stores, screens.
// Add here: nothing for a new request; a third transport as a file like over-desk.ts.

import { type Bridge, bridgeName, type Host, HostFailure } from '#shared/contract/index.ts';
import { type Connection, makeConnectionState } from './connection.ts';
import { hostOverBridge } from './over-bridge.ts';
import { hostOverDesk } from './over-desk.ts';

export type { Connection } from './connection.ts';

const state = makeConnectionState();

const bridge = (): Bridge | null => (globalThis as { [bridgeName]?: Bridge })[bridgeName] ?? null;

/** How the connection stands now. */
export const connection = (): Connection => state.now();

/** Calls `listener` whenever the connection changes; returns its own unsubscriber. Fits `useSyncExternalStore(onConnection, connection)`. */
export const onConnection = (listener: () => void): (() => void) => state.subscribe(listener);

const firstAnswer = (): Promise<Connection> =>
  new Promise((resolve) => {
    const off = state.subscribe(() => {
      if (state.now() === 'lost') return;
      off();
      resolve(state.now());
    });
  });

/**
 * Opens the host, once for a page: resolves when it answers, however long that takes. Rejects with a `HostFailure` `not-allowed` for a page
 * that was not opened from Stillstring's own address.
 */
export async function openHost(): Promise<Host> {
  const there = bridge();
  if (there !== null) {
    state.set('open');
    return hostOverBridge(there);
  }
  const answered = firstAnswer();
  const host = hostOverDesk(state);
  if ((await answered) === 'refused') throw new HostFailure('not-allowed');
  return host;
}
