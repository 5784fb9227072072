import { type Host, HostFailure } from '#shared/contract/index.ts';
import type { Reading, Turn } from '#shared/log/index.ts';
import { createStore } from 'zustand/vanilla';

type Rows = { readonly readings: readonly Reading[]; readonly turns: readonly Turn[] };

/**
 * Rows of the log that the host has not yet acknowledged; they are kept and sent again until it has. Their ids make that harmless. A row that the
 * host will never take is put aside with its reason, so that it holds up no other.
 */
export const outbox = createStore<Rows & { readonly refused: readonly { readonly row: Reading | Turn; readonly reason: string }[] }>(
  () => ({
    readings: [],
    turns: [],
    refused: [],
  }),
);

const retryMilliseconds = 2000;
let isSending = false;

/** Puts rows into the log, now or as soon as the host answers again. */
export async function append(host: Host, rows: Rows): Promise<void> {
  outbox.setState(({ readings, turns }) => ({ readings: [...readings, ...rows.readings], turns: [...turns, ...rows.turns] }));
  if (isSending) return;
  isSending = true;
  while (outbox.getState().readings.length + outbox.getState().turns.length > 0) {
    const waiting = outbox.getState();
    try {
      await host.ask('log.append', { readings: [...waiting.readings], turns: [...waiting.turns] });
      forget(waiting);
    } catch (fault) {
      if (isForGood(fault)) await sendOneByOne(host, waiting);
      else await new Promise((resolve) => setTimeout(resolve, retryMilliseconds));
    }
  }
  isSending = false;
}

const forget = (rows: Rows): void =>
  outbox.setState((left) => ({
    readings: left.readings.filter((row) => !rows.readings.includes(row)),
    turns: left.turns.filter((row) => !rows.turns.includes(row)),
  }));

/** Whether the rows themselves are at fault, so that sending them again would not help. */
const isForGood = (fault: unknown): fault is HostFailure =>
  fault instanceof HostFailure && (fault.code === 'bad-input' || fault.code === 'not-found');

/** Finds the rows that the host refuses. Should it stop answering meanwhile, the rest stays. */
async function sendOneByOne(host: Host, { readings, turns }: Rows): Promise<void> {
  const single: readonly Rows[] = [
    ...turns.map((row) => ({ readings: [], turns: [row] })),
    ...readings.map((row) => ({ readings: [row], turns: [] })),
  ];
  for (const rows of single) {
    try {
      await host.ask('log.append', { readings: [...rows.readings], turns: [...rows.turns] });
    } catch (fault) {
      if (!isForGood(fault)) return;
      const reason = fault.message;
      outbox.setState(({ refused }) => ({ refused: [...refused, ...[...rows.turns, ...rows.readings].map((row) => ({ row, reason }))] }));
    }
    forget(rows);
  }
}
