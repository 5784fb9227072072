import { describe, expect, test } from 'vitest';
import { findInput, listInputs, watchInputs } from '../../../src-renderer/audio/devices.ts';
import { inputFacts } from '../../../src-renderer/audio/input-facts.ts';
import { fakeWorld, settled } from './fake-world.ts';

describe('which input', () => {
  const inputs = [
    { deviceId: 'default', label: 'Default: Laptop' },
    { deviceId: 'a2', label: 'Pickup' },
    { deviceId: 'c1', label: null },
  ];

  test('by its name first, then by its id', () => {
    expect(findInput(inputs, { deviceId: 'c1', label: 'Pickup' })?.deviceId).toBe('a2');
    expect(findInput(inputs, { deviceId: 'c1', label: 'Renamed' })?.deviceId).toBe('c1');
    expect(findInput(inputs, { deviceId: 'x', label: 'Other' })).toBeNull();
  });

  test("the system's choice is not taken for a device that is gone: it may be another by now", () => {
    expect(findInput(inputs, { deviceId: 'default', label: 'Default: Pickup' })).toBeNull();
    expect(findInput(inputs, { deviceId: 'default', label: 'Default: Laptop' })?.deviceId).toBe('default');
  });

  test('inputs without a name, as before the first permission, match no name', () => {
    expect(findInput([{ deviceId: '', label: null }], { deviceId: '', label: null })).toBeNull();
  });

  test('the list leaves out the second stand-in of some systems, and a page without devices has none', async () => {
    const { world } = fakeWorld([
      { deviceId: 'communications', label: 'Communications' },
      { deviceId: 'a1', label: '' },
    ]);
    expect(await listInputs(world.devices)).toEqual([{ deviceId: 'a1', label: null }]);
  });

  test('a watcher hears the list at once and at each change, until it unsubscribes', async () => {
    const { world, plug } = fakeWorld([]);
    const counts: number[] = [];
    const unsubscribe = watchInputs((list) => counts.push(list.length), world.devices);
    await settled();
    plug([{ deviceId: 'a1', label: 'Pickup' }]);
    await settled();
    unsubscribe();
    plug([]);
    await settled();
    expect(counts).toEqual([0, 1]);
  });

  test('a list that is under way when the watcher unsubscribes is not delivered', async () => {
    const { world } = fakeWorld();
    let calls = 0;
    watchInputs(() => (calls += 1), world.devices)();
    await settled();
    expect(calls).toBe(0);
  });
});

describe('what spoils an input', () => {
  test('processing that was left on is listed, also when the browser tells it by a word, and each gets a sentence', () => {
    const { processing, advice } = inputFacts(
      'Laptop',
      { echoCancellation: 'all', noiseSuppression: true, autoGainControl: false, voiceIsolation: true, sampleRate: 48000 },
      48000,
    );
    expect(processing).toEqual(['echo cancellation', 'noise suppression', 'voice isolation']);
    expect(advice).toHaveLength(3);
  });

  test('a headset at 16 kHz gets a sentence, 44.1 kHz none', () => {
    expect(inputFacts('Headset', { sampleRate: 16000 }, 48000).advice).toEqual([expect.stringContaining('16 kHz')]);
    expect(inputFacts('Pickup', { sampleRate: 44100 }, 48000).advice).toEqual([]);
  });

  test('a rate that the browser does not tell is that of the context; one channel is assumed', () => {
    expect(inputFacts('Pickup', {}, 48000)).toMatchObject({ sampleRateHertz: 48000, channelCount: 1, deviceId: null });
  });
});
