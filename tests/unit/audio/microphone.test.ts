import { describe, expect, test } from 'vitest';
import { createMicrophone } from '../../../src-renderer/audio/microphone.ts';
import { diary, fakeWorld, settled } from './fake-world.ts';

const pickup = { deviceId: 'a1', label: 'Pickup' };
const laptop = { deviceId: 'b1', label: 'Laptop' };

describe('opening', () => {
  test('asks for raw sound, at the rate of the device, and tells what it listens to', async () => {
    const { world, asked, contexts } = fakeWorld([{ ...pickup, settings: { sampleRate: 96000 } }]);
    const { listener, states, opened } = diary();
    await createMicrophone({}, world).start(listener);
    expect(asked).toEqual([
      { echoCancellation: false, noiseSuppression: false, autoGainControl: false, voiceIsolation: false, channelCount: { ideal: 2 } },
    ]);
    expect(contexts[0]!.sampleRate).toBe(96000);
    expect(opened[0]!.input).toEqual({
      label: 'Pickup',
      deviceId: 'a1',
      sampleRateHertz: 96000,
      channelCount: 2,
      processing: [],
      advice: [],
    });
    expect(states.map(({ kind, sentence }) => [kind, sentence])).toEqual([
      ['asking', expect.stringContaining('allow it')],
      ['open', 'Listening to Pickup.'],
    ]);
  });

  test('finds a remembered input by its name when its id has changed', async () => {
    const { world, asked } = fakeWorld([laptop, { deviceId: 'a2', label: 'Pickup' }]);
    const { listener, last } = diary();
    await createMicrophone({ choice: pickup }, world).start(listener);
    expect(asked[0]!.deviceId).toEqual({ exact: 'a2' });
    expect(last()?.kind).toBe('open');
  });

  test('says that a remembered input is gone instead of taking another, and opens it when it comes', async () => {
    const { world, plug, tracks } = fakeWorld([laptop]);
    const { listener, last } = diary();
    await createMicrophone({ choice: pickup }, world).start(listener);
    expect(last()).toMatchObject({ kind: 'lost', sentence: expect.stringContaining('Pickup is gone'), remedy: 'choose-input' });
    plug([laptop, pickup]);
    await settled();
    expect(last()?.kind).toBe('open');
    expect(tracks.map(({ label }) => label)).toEqual(['Pickup']);
  });

  test('with nothing plugged in says so, and starts when something is', async () => {
    const { world, plug } = fakeWorld([]);
    const { listener, kinds } = diary();
    await createMicrophone({}, world).start(listener);
    expect(kinds()).toEqual(['asking', 'no-device']);
    plug([laptop]);
    await settled();
    expect(kinds()).toEqual(['asking', 'no-device', 'asking', 'open']);
  });

  test('a refusal stays until the player tries again; plugging things in does not ask anew', async () => {
    const { world, control, plug, asked } = fakeWorld();
    const { listener, last } = diary();
    control.refusal = new DOMException('Permission denied', 'NotAllowedError');
    const microphone = createMicrophone({}, world);
    await microphone.start(listener);
    plug([pickup, laptop]);
    await settled();
    expect(last()).toMatchObject({ kind: 'denied', remedy: 'retry' });
    expect(asked).toHaveLength(1);
    control.refusal = null;
    await microphone.retry();
    expect(last()?.kind).toBe('open');
  });

  test('a page that may use no devices at all fails with a sentence', async () => {
    const { world } = fakeWorld();
    const { listener, last } = diary();
    await createMicrophone({}, { ...world, devices: undefined }).start(listener);
    expect(last()?.kind).toBe('failed');
  });
});

describe('a device that goes away', () => {
  test('is named, its sound is closed, and listening goes on when it is back under a new id', async () => {
    const { world, tracks, contexts, plug, pass } = fakeWorld();
    const { listener, last, opened, closed } = diary();
    await createMicrophone({}, world).start(listener);
    plug([laptop]);
    tracks[0]!.unplug();
    expect(last()).toMatchObject({ kind: 'lost', sentence: expect.stringContaining('Pickup is gone') });
    expect([contexts[0]!.state, closed()]).toEqual(['closed', 1]);
    await pass(60);
    expect(last()?.kind).toBe('lost');
    plug([laptop, { deviceId: 'a9', label: 'Pickup' }]);
    await settled();
    expect(last()?.kind).toBe('open');
    expect(opened.map(({ input }) => input.deviceId)).toEqual(['a1', 'a9']);
  });

  test('after the computer slept it is tried again by itself, though nothing was plugged in', async () => {
    const { world, tracks, pass } = fakeWorld();
    const { listener, last } = diary();
    await createMicrophone({}, world).start(listener);
    tracks[0]!.unplug();
    await pass(0.4);
    expect(last()?.kind).toBe('lost');
    await pass(0.2);
    expect(last()?.kind).toBe('open');
  });

  test('a device that comes late without an announcement is found by the later waits', async () => {
    const { world, tracks, plug, pass } = fakeWorld();
    const { listener, last } = diary();
    await createMicrophone({}, world).start(listener);
    plug([], { announced: false });
    tracks[0]!.unplug();
    await pass(2);
    expect(last()?.kind).toBe('lost');
    plug([pickup], { announced: false });
    await pass(2);
    expect(last()?.kind).toBe('open');
  });

  test('one that breaks off again and again is left alone after five tries', async () => {
    const { world, tracks, pass, asked } = fakeWorld();
    const { listener, last } = diary();
    await createMicrophone({}, world).start(listener);
    for (let round = 0; round < 8; round += 1) {
      tracks.at(-1)!.unplug();
      await pass(9);
    }
    expect(asked).toHaveLength(6);
    expect(last()?.kind).toBe('lost');
  });

  test('having been plugged in again, or having stayed for a while, it is tried as patiently as before', async () => {
    const { world, tracks, pass, plug } = fakeWorld();
    const { listener, last } = diary();
    await createMicrophone({}, world).start(listener);
    const breakOff = async (times: number) => {
      for (let round = 0; round < times; round += 1) {
        tracks.at(-1)!.unplug();
        await pass(9);
      }
    };
    await breakOff(6);
    expect(last()?.kind).toBe('lost');
    plug([pickup]);
    await breakOff(5);
    expect(last()?.kind).toBe('open');
    await pass(11);
    await breakOff(5);
    expect(last()?.kind).toBe('open');
  });

  test('an audio engine that breaks down is built anew', async () => {
    const { world, contexts, pass } = fakeWorld();
    const { listener, last } = diary();
    await createMicrophone({}, world).start(listener);
    contexts[0]!.dispatchEvent(new Event('error'));
    expect(last()?.kind).toBe('lost');
    await pass(1);
    expect([last()?.kind, contexts.length]).toEqual(['open', 2]);
  });

  test('what becomes of a device that is no longer listened to does not matter', async () => {
    const { world, tracks, contexts } = fakeWorld();
    const { listener, last } = diary();
    const microphone = createMicrophone({}, world);
    await microphone.start(listener);
    await microphone.retry();
    tracks[0]!.unplug();
    tracks[0]!.mute(true);
    contexts[0]!.become('suspended');
    expect([last()?.kind, tracks.length]).toEqual(['open', 2]);
  });
});

describe('a device set to another sample rate while it is open', () => {
  test.each(['the track says so', 'the devices are said to have changed'])('is opened anew at that rate: %s', async (how) => {
    const { world, tracks, contexts, plug } = fakeWorld();
    const { listener, opened, closed, last } = diary();
    await createMicrophone({}, world).start(listener);
    tracks[0]!.settings.sampleRate = 96_000;
    if (how === 'the track says so') tracks[0]!.dispatchEvent(new Event('configurationchange'));
    else plug([{ ...pickup, settings: { sampleRate: 96_000 } }]);
    await settled();
    expect([last()?.kind, closed(), opened.length, tracks[0]!.stopped, contexts[0]!.state]).toEqual(['open', 1, 2, true, 'closed']);
    // Its id is as before, so nobody is asked which device is meant.
    expect(opened[1]!.input.deviceId).toBe(opened[0]!.input.deviceId);
  });

  test('is left alone when anything else about it changes', async () => {
    const { world, tracks, plug } = fakeWorld();
    const { listener, opened } = diary();
    await createMicrophone({}, world).start(listener);
    tracks[0]!.dispatchEvent(new Event('configurationchange'));
    plug([pickup, laptop]);
    await settled();
    expect(opened).toHaveLength(1);
  });
});

describe('a device that is open and not heard', () => {
  test('muted by a switch, and unmuted', async () => {
    const { world, tracks } = fakeWorld();
    const { listener, last } = diary();
    await createMicrophone({}, world).start(listener);
    tracks[0]!.mute(true);
    expect(last()).toMatchObject({ kind: 'muted', sentence: expect.stringContaining('Pickup is muted') });
    tracks[0]!.mute(false);
    expect(last()?.kind).toBe('open');
  });

  test('a sleeping context wakes by a key, and says asleep until then', async () => {
    const { world, control, page } = fakeWorld();
    const { listener, kinds } = diary();
    control.contextState = 'suspended';
    await createMicrophone({}, world).start(listener);
    expect(kinds()).toEqual(['asking', 'asleep']);
    page.dispatchEvent(new Event('keydown'));
    expect(kinds()).toEqual(['asking', 'asleep', 'open']);
  });

  test('a context that falls asleep later wakes by retry, without asking for the device again', async () => {
    const { world, contexts, asked } = fakeWorld();
    const { listener, kinds } = diary();
    const microphone = createMicrophone({}, world);
    await microphone.start(listener);
    contexts[0]!.become('suspended');
    await microphone.retry();
    expect(kinds().slice(-2)).toEqual(['asleep', 'open']);
    expect(asked).toHaveLength(1);
  });
});

describe('stopping', () => {
  test('lets go of device and context, and nothing opens it again', async () => {
    const { world, tracks, contexts, plug, pass, asked, control } = fakeWorld();
    const { listener, last } = diary();
    const microphone = createMicrophone({}, world);
    await microphone.start(listener);
    microphone.stop();
    control.timesListed = 0;
    plug([pickup, laptop]);
    await pass(60);
    expect([tracks[0]!.stopped, contexts[0]!.state, last()?.kind, asked.length, control.timesListed]).toEqual([
      true,
      'closed',
      'closed',
      1,
      0,
    ]);
  });

  test('while the question is still on the screen: a late answer is not listened to', async () => {
    const { world, tracks, contexts } = fakeWorld();
    const { listener, last } = diary();
    const microphone = createMicrophone({}, world);
    const starting = microphone.start(listener);
    microphone.stop();
    await starting;
    expect(last()?.kind).toBe('closed');
    expect(tracks.every(({ stopped }) => stopped)).toBe(true);
    expect(contexts).toHaveLength(0);
  });

  test('while the reading part still loads: it is not called open afterwards', async () => {
    const { world } = fakeWorld();
    const { listener, kinds } = diary();
    const loading = Promise.withResolvers<void>();
    const microphone = createMicrophone({}, world);
    const starting = microphone.start({ ...listener, opened: () => loading.promise });
    await settled();
    microphone.stop();
    loading.resolve();
    await starting;
    expect(kinds()).toEqual(['asking', 'closed']);
  });

  test('and started anew while the reading part still loads: only the second attempt is told', async () => {
    const { world } = fakeWorld();
    const { listener, kinds } = diary();
    const loads = [Promise.withResolvers<void>(), Promise.withResolvers<void>()];
    const waiting = loads.map(({ promise }) => promise);
    const microphone = createMicrophone({}, world);
    const starting = microphone.start({ ...listener, opened: () => waiting.shift() ?? Promise.resolve() });
    await settled();
    const again = microphone.retry();
    await settled();
    loads[0]!.resolve();
    await starting;
    expect(kinds()).toEqual(['asking', 'asking']);
    loads[1]!.resolve();
    await again;
    expect(kinds()).toEqual(['asking', 'asking', 'open']);
  });
});
