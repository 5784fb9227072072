import { writeWav } from '#shared/recording/index.ts';
import { describe, expect, test } from 'vitest';
import { createRecordingSource } from '../../../src-renderer/audio/recording-source.ts';
import { diary, fakeWorld, settled } from './fake-world.ts';

const samples = Float32Array.of(0, 0.5, -0.5, 0.25);
const bytes = writeWav({ sampleRateHertz: 22050, channels: [samples, samples] }, 'float32');

describe('a recording in place of a microphone', () => {
  test("plays its very samples at the file's own rate, unheard, once the listener is ready", async () => {
    const { world, contexts } = fakeWorld();
    const { listener, opened, states } = diary();
    const gate = Promise.withResolvers<void>();
    const starting = createRecordingSource({ label: 'Demo', bytes }, world).start({
      ...listener,
      opened: (sound) => listener.opened(sound).then(() => gate.promise),
    });
    await settled();
    const [player] = contexts[0]!.played;
    expect([player!.started, states]).toEqual([false, []]);
    gate.resolve();
    await starting;
    expect(player).toMatchObject({
      started: true,
      loop: false,
      connectedTo: [],
      buffer: { sampleRate: 22050, channels: [samples, samples] },
    });
    expect(opened[0]!.input).toEqual({
      label: 'Demo',
      deviceId: null,
      sampleRateHertz: 22050,
      channelCount: 2,
      processing: [],
      advice: [],
    });
    expect(states).toEqual([{ kind: 'open', sentence: 'Listening to Demo.', remedy: null }]);
  });

  test('can be heard, and go round', async () => {
    const { world, contexts } = fakeWorld();
    await createRecordingSource({ label: 'Demo', bytes, loop: true, audible: true }, world).start(diary().listener);
    expect(contexts[0]!.played[0]).toMatchObject({ loop: true, connectedTo: ['speakers'] });
  });

  test('says when it has ended, keeps saying so while the computer dozes, and plays again', async () => {
    const { world, contexts } = fakeWorld();
    const { listener, kinds, closed } = diary();
    const source = createRecordingSource({ label: 'Demo', bytes }, world);
    await source.start(listener);
    contexts[0]!.played[0]!.end();
    contexts[0]!.become('running');
    contexts[0]!.become('suspended');
    expect(kinds()).toEqual(['open', 'ended']);
    await source.retry();
    expect([kinds(), closed(), contexts.map(({ state }) => state)]).toEqual([['open', 'ended', 'open'], 1, ['closed', 'running']]);
  });

  test('sleeps until a key is pressed', async () => {
    const { world, control, page } = fakeWorld();
    const { listener, kinds } = diary();
    control.contextState = 'suspended';
    await createRecordingSource({ label: 'Demo', bytes }, world).start(listener);
    page.dispatchEvent(new Event('pointerdown'));
    expect(kinds()).toEqual(['asleep', 'open']);
  });

  test("a file that can't be read fails with the sentence of the reader, and opens nothing", async () => {
    const { world, contexts } = fakeWorld();
    const { listener, last } = diary();
    await createRecordingSource({ label: 'Demo', bytes: bytes.subarray(0, 60) }, world).start(listener);
    expect(last()).toMatchObject({ kind: 'failed', sentence: expect.stringContaining('cut off'), remedy: 'choose-input' });
    expect(contexts).toEqual([]);
  });

  test('stopped while it opens, it never starts', async () => {
    const { world, contexts } = fakeWorld();
    const { listener, last } = diary();
    const source = createRecordingSource({ label: 'Demo', bytes }, world);
    const starting = source.start(listener);
    source.stop();
    await starting;
    expect([contexts[0]!.played[0]!.started, contexts[0]!.state, last()?.kind]).toEqual([false, 'closed', 'closed']);
  });
});
