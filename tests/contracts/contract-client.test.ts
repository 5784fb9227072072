import { describe, expect, onTestFinished, test, vi } from 'vitest';
import type { Bridge, Reply } from '#shared/contract/index.ts';
import type * as client from '../../src-renderer/host/index.ts';
import { tuning } from '../support/host.ts';

async function freshClient(): Promise<typeof client> {
  onTestFinished(() => void vi.unstubAllGlobals());
  vi.resetModules();
  return import('../../src-renderer/host/index.ts');
}

/** A bridge in the page that gives every request this reply. */
function bridgeThatReplies(reply: Reply) {
  const listeners = new Set<(push: unknown) => void>();
  const ask = vi.fn<Bridge['ask']>(() => Promise.resolve(reply));
  const bridge: Bridge = {
    ask,
    on(_name, listener) {
      listeners.add(listener);
      return () => void listeners.delete(listener);
    },
  };
  vi.stubGlobal('stillstring', bridge);
  return { ask, listeners };
}

describe('the client over Electron’s bridge', () => {
  test('is chosen where there is a bridge, asks over it and hears of changes until it wants no more', async () => {
    const { ask, listeners } = bridgeThatReplies({ ok: true, value: [tuning] });
    const { openHost, connection } = await freshClient();
    const host = await openHost();
    expect(connection()).toBe('open');
    expect(await host.ask('tunings.list', {})).toEqual([tuning]);
    expect(ask).toHaveBeenCalledExactlyOnceWith('tunings.list', {});
    const heard = vi.fn();
    const off = host.on('changed', heard);
    for (const listener of listeners) listener({ parts: ['log'] });
    expect(heard.mock.calls).toEqual([[{ parts: ['log'] }]]);
    off();
    expect(listeners.size).toBe(0);
  });

  test('gives a refusal as a failure with its code and sentence', async () => {
    bridgeThatReplies({ ok: false, failure: { code: 'in-use', sentence: '“Wren” is in this tuning.' } });
    const { openHost } = await freshClient();
    const host = await openHost();
    await expect(host.ask('tunings.remove', { id: tuning.id })).rejects.toMatchObject({
      code: 'in-use',
      message: '“Wren” is in this tuning.',
    });
  });
});

/** A socket that does what the test says. */
class SocketByHand extends EventTarget {
  static last: SocketByHand;
  readonly sent: string[] = [];
  constructor() {
    super();
    SocketByHand.last = this;
  }
  send(text: string): void {
    this.sent.push(text);
  }
  happen(event: 'open' | 'close'): void {
    this.dispatchEvent(new Event(event));
  }
}

describe('the client over a desk that does not answer', () => {
  test('keeps a request for ten seconds, then says that the library is not reachable', async () => {
    vi.useFakeTimers();
    onTestFinished(() => void vi.useRealTimers());
    vi.stubGlobal('location', { host: '127.0.0.1:1', hash: '#launch=AAAA', pathname: '/' });
    vi.stubGlobal('history', { replaceState: () => undefined });
    vi.stubGlobal('WebSocket', SocketByHand);
    vi.stubGlobal('fetch', () => Promise.reject(new TypeError('no network')));
    const { openHost, connection } = await freshClient();
    const opening = openHost();
    SocketByHand.last.happen('open');
    const host = await opening;
    SocketByHand.last.happen('close');
    expect(connection()).toBe('lost');

    const refusal = vi.fn();
    host.ask('tunings.list', {}).catch(refusal);
    await vi.advanceTimersByTimeAsync(9_900);
    expect(refusal).not.toHaveBeenCalled();
    await vi.advanceTimersByTimeAsync(200);
    expect(refusal.mock.calls[0]?.[0]).toMatchObject({ code: 'not-reachable' });
    SocketByHand.last.happen('open');
    expect(SocketByHand.last.sent).toEqual([]);
    expect(connection()).toBe('open');
  });
});
