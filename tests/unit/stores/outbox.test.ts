import { beforeEach, describe, expect, test, vi } from 'vitest';
import { type Host, HostFailure, type Input } from '#shared/contract/index.ts';
import { append, outbox } from '../../../src-renderer/stores/outbox.ts';
import { reading, turn } from '../../support/wren.ts';

beforeEach(() => outbox.setState({ readings: [], turns: [], refused: [] }));

/** A host that writes rows down unless `refusal` has something against them. */
function hostThat(refusal: (rows: Input<'log.append'>) => Error | null): { readonly host: Host; readonly written: string[] } {
  const written: string[] = [];
  const ask = (_name: string, rows: Input<'log.append'>) => {
    const fault = refusal(rows);
    if (fault !== null) return Promise.reject(fault);
    written.push(...[...(rows.turns ?? []), ...(rows.readings ?? [])].map(({ id }) => id));
    return Promise.resolve({});
  };
  return { host: { ask, on: () => () => undefined } as unknown as Host, written };
}

describe('rows on their way to the log', () => {
  test('wait while the host does not answer, and go when it does', async () => {
    vi.useFakeTimers();
    let isAway = true;
    const { host, written } = hostThat(() => (isAway ? new HostFailure('not-reachable') : null));
    const sent = append(host, { readings: [reading], turns: [] });
    await vi.advanceTimersByTimeAsync(3000);
    expect([written, outbox.getState().readings.length]).toEqual([[], 1]);
    isAway = false;
    await vi.advanceTimersByTimeAsync(3000);
    await sent;
    expect([written, outbox.getState().readings.length]).toEqual([[reading.id], 0]);
    vi.useRealTimers();
  });

  test('are not held up by one that the host will never take, which is put aside with its reason', async () => {
    const stray = { ...reading, id: 'stray', course: 9 };
    const reason = '“First set” has no such string: nothing was written.';
    const { host, written } = hostThat(({ readings = [] }) =>
      readings.some(({ course }) => course > 3) ? new HostFailure('bad-input', reason) : null,
    );
    await append(host, { readings: [stray, reading], turns: [turn] });
    expect(written).toEqual([turn.id, reading.id]);
    expect(outbox.getState()).toMatchObject({ readings: [], turns: [], refused: [{ row: { id: 'stray' }, reason }] });
  });
});
