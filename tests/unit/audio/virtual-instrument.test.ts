import { describe, expect, test } from 'vitest';
import { createVirtualInstrument } from '../../../src-renderer/audio/virtual-instrument.ts';
import { diary, fakeWorld, settled } from './fake-world.ts';

const setup = { scaleLengthMillimetres: 430, courses: [], presentHertz: [], seed: 1 };

/** A node that keeps what the hand did to it. */
const onScreen = (fault?: Error) => {
  const { world, contexts, page } = fakeWorld();
  const done: unknown[] = [];
  let faults = fault === undefined ? 0 : 1;
  const openNode = async () => {
    if (faults > 0) {
      faults -= 1;
      throw fault;
    }
    return { connect: () => {}, port: { postMessage: (hand: unknown) => done.push(hand) } } as unknown as AudioWorkletNode;
  };
  const instrument = createVirtualInstrument({ label: 'Wren on the screen', setup }, { ...world, openNode });
  return { instrument, done, contexts, page };
};

describe('an instrument on the screen', () => {
  test('is the same one to the hand before, while and after it is listened to', async () => {
    const { instrument, done, contexts } = onScreen();
    const { listener, kinds, closed } = diary();
    instrument.hand({ kind: 'pluck', course: 0 });
    await settled();
    await instrument.source.start(listener);
    instrument.hand({ kind: 'turn', course: 0, string: 0, cents: -3 });
    instrument.source.stop();
    instrument.hand({ kind: 'strum' });
    await settled();
    expect(done).toEqual([{ kind: 'pluck', course: 0 }, { kind: 'turn', course: 0, string: 0, cents: -3 }, { kind: 'strum' }]);
    expect([contexts.length, kinds(), closed()]).toEqual([1, ['open', 'closed'], 1]);
  });

  test('wakes for a hand', async () => {
    const { instrument, done, contexts } = onScreen();
    instrument.hand({ kind: 'strum' });
    await settled();
    contexts[0]!.become('suspended');
    instrument.hand({ kind: 'damp' });
    await settled();
    expect([contexts[0]!.state, done.length]).toEqual(['running', 2]);
  });

  test('that could not be loaded says so, keeps no context open, and can be tried again', async () => {
    const { instrument, contexts } = onScreen(new Error('no worklet'));
    const { listener, states, kinds } = diary();
    await instrument.source.start(listener);
    expect(states[0]).toMatchObject({ kind: 'failed', remedy: 'retry' });
    expect(contexts.map(({ state }) => state)).toEqual(['closed']);
    await instrument.source.retry();
    expect(kinds()).toEqual(['failed', 'open']);
    expect(contexts.map(({ state }) => state)).toEqual(['closed', 'running']);
  });

  test('that a hand could not load is loaded by the next one', async () => {
    const { instrument, done, contexts } = onScreen(new Error('no worklet'));
    instrument.hand({ kind: 'strum' });
    await settled();
    instrument.hand({ kind: 'damp' });
    await settled();
    expect(done).toEqual([{ kind: 'damp' }]);
    expect(contexts.map(({ state }) => state)).toEqual(['closed', 'running']);
  });
});
