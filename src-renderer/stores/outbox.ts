import type { Host } from '#shared/contract/index.ts';
import type { Reading, Turn } from '#shared/log/index.ts';
import { createStore } from 'zustand/vanilla';

/** Rows of the log that the host has not yet acknowledged; they are kept and sent again until it has. Their ids make that harmless. */
export const outbox = createStore<{ readonly readings: readonly Reading[]; readonly turns: readonly Turn[] }>(() => ({
  readings: [],
  turns: [],
}));

const retryMilliseconds = 2000;
let isSending = false;

/** Puts rows into the log, now or as soon as the host answers again. */
export async function append(host: Host, rows: { readonly readings: readonly Reading[]; readonly turns: readonly Turn[] }): Promise<void> {
  outbox.setState(({ readings, turns }) => ({ readings: [...readings, ...rows.readings], turns: [...turns, ...rows.turns] }));
  if (isSending) return;
  isSending = true;
  while (outbox.getState().readings.length + outbox.getState().turns.length > 0) {
    const { readings, turns } = outbox.getState();
    try {
      await host.ask('log.append', { readings: [...readings], turns: [...turns] });
      outbox.setState((left) => ({ readings: left.readings.slice(readings.length), turns: left.turns.slice(turns.length) }));
    } catch {
      await new Promise((resolve) => setTimeout(resolve, retryMilliseconds));
    }
  }
  isSending = false;
}
