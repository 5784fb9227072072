import type { PitchEvent } from '#shared/pitch/index.ts';
import { describe, expect, test } from 'vitest';
import type { Level } from '../../../src-renderer/audio/level-meter.ts';
import { startListening } from '../../../src-renderer/audio/listening.ts';
import type { WorkerReport } from '../../../src-renderer/audio/messages.ts';
import type { InputFacts, SoundSource, SourceListener, SoundStateKind } from '../../../src-renderer/audio/source.ts';
import { settled } from './fake-world.ts';

const input: InputFacts = { label: 'Pickup', deviceId: 'a1', sampleRateHertz: 48000, channelCount: 2, processing: [], advice: [] };
const level = (zerosSeconds: number[]): Level => ({
  atSeconds: 1,
  peaksDecibels: [null, null],
  zerosSeconds,
  clipped: [false, false],
  droppedHops: 0,
});
const silence: PitchEvent = { kind: 'refusal', atSeconds: 1, reason: 'silence' };

/** A session over a source that is moved by hand and a worker that only writes down what it is told. */
const session = (
  options: Parameters<typeof startListening>[1] = {},
  { loads = true, kind = 'microphone' }: { loads?: boolean; kind?: SoundSource['kind'] } = {},
) => {
  let listener: SourceListener | null = null;
  const source: SoundSource = {
    kind,
    label: 'Pickup',
    start: async (given) => {
      listener = given;
    },
    retry: async () => {},
    stop: () => {},
  };
  const told: unknown[] = [];
  const connected: unknown[] = [];
  let report: ((report: WorkerReport) => void) | null = null;
  let failed: ((message: string) => void) | null = null;
  const listening = startListening(source, options, async (_, pipe) => {
    if (!loads) throw new Error('404');
    ({ report, failed } = pipe);
    connected.push({ channel: pipe.channel, hint: pipe.hint });
    return { tell: (control) => told.push(control), choose: (channel) => told.push({ channel }), close: () => told.push('closed') };
  });
  return {
    listening,
    told,
    connected,
    source: () => listener!,
    report: (message: WorkerReport) => report!(message),
    failed: (message: string) => failed!(message),
    state: () => listening.snapshot().state.kind,
    become: (state: SoundStateKind) => listener!.changed({ kind: state, sentence: '', remedy: null }),
    open: async (facts: Partial<InputFacts> = {}, currentTime = 0) => {
      const context = { sampleRate: 48000, currentTime, state: 'running' };
      await listener!.opened({ context: context as AudioContext, node: {} as AudioNode, input: { ...input, ...facts } });
      await settled();
      listener!.changed({ kind: 'open', sentence: '', remedy: null });
      return context;
    },
  };
};

describe('what the screens see', () => {
  test('pitches and levels reach their listeners until these unsubscribe', async () => {
    const { listening, open, report } = session();
    await open();
    const heard: unknown[] = [];
    const off = listening.onPitch((event) => heard.push(event));
    const offLevel = listening.onLevel((one) => heard.push(one));
    report({ kind: 'pitch', events: [silence] });
    report({ kind: 'level', level: level([0, 0]) });
    off();
    offLevel();
    report({ kind: 'pitch', events: [silence] });
    report({ kind: 'level', level: level([0, 0]) });
    expect(heard).toEqual([silence, level([0, 0])]);
  });

  test('three seconds of exact zeros on the chosen channel make an open microphone silent, the first sound makes it open again', async () => {
    const { open, report, state } = session({ channel: 1 });
    await open();
    report({ kind: 'level', level: level([9, 2.9]) });
    expect(state()).toBe('open');
    report({ kind: 'level', level: level([9, 3]) });
    expect(state()).toBe('silent');
    report({ kind: 'level', level: level([9, 0]) });
    expect(state()).toBe('open');
  });

  test('a pause in a recording is not called silent, and a muted device stays muted', async () => {
    const recording = session({}, { kind: 'recording' });
    await recording.open();
    recording.report({ kind: 'level', level: level([9, 9]) });
    expect(recording.state()).toBe('open');
    const muted = session();
    await muted.open();
    muted.become('muted');
    muted.report({ kind: 'level', level: level([9, 9]) });
    expect(muted.state()).toBe('muted');
  });

  test('a worker that stops is told, whatever the device does, until the source opens anew', async () => {
    const { open, failed, become, state } = session();
    await open();
    failed('out of memory');
    become('asleep');
    become('open');
    expect(state()).toBe('failed');
    become('lost');
    expect(state()).toBe('lost');
    await open();
    expect(state()).toBe('open');
  });

  test('a worklet that cannot be loaded is told', async () => {
    const { open, state, listening } = session({}, { loads: false });
    await open();
    expect(state()).toBe('failed');
    expect(listening.snapshot().state.remedy).toBe('retry');
  });
});

describe('how well the player is heard', () => {
  test('is told when it changes and only while the input is open', async () => {
    const { listening, open, report, become } = session();
    const words: unknown[] = [];
    listening.onSnapshot(({ hearing }) => words.push(hearing));
    await open();
    report({ kind: 'level', level: level([0, 0]) });
    report({ kind: 'level', level: level([0, 0]) });
    report({ kind: 'level', level: { ...level([0, 0]), clipped: [true, false] } });
    become('asleep');
    report({ kind: 'level', level: level([0, 0]) });
    expect(words).toEqual([null, 'quiet', 'too-loud', null]);
  });
});

describe('a device that goes and comes back', () => {
  test('finds the hint and the channel as they were, also after an input with fewer channels', async () => {
    const { listening, open, source, connected, told } = session({ channel: 1 });
    await open();
    listening.expect({ hertz: [440], asked: 0 });
    source().closed();
    expect([told.at(-1), listening.snapshot().input]).toEqual(['closed', null]);
    await open({ channelCount: 1 });
    source().closed();
    await open();
    expect(connected).toEqual([
      { channel: 1, hint: null },
      { channel: 0, hint: { hertz: [440], asked: 0 } },
      { channel: 1, hint: { hertz: [440], asked: 0 } },
    ]);
  });

  test('is read on the channel that was chosen meanwhile, and a change of channel starts reading afresh', async () => {
    const { listening, open, source, connected, told } = session();
    await open();
    listening.chooseChannel(1);
    expect(told.slice(-2)).toEqual([{ channel: 1 }, { kind: 'reset' }]);
    expect(listening.snapshot().channel).toBe(1);
    source().closed();
    await open();
    expect(connected.map((pipe) => (pipe as { channel: number }).channel)).toEqual([0, 1]);
  });

  test('while the reading part still loads leaves nothing running', async () => {
    const { open, source, told } = session();
    const opening = open();
    source().closed();
    await opening;
    expect(told).toEqual(['closed']);
  });

  test('after a sleep of the audio clock the worker hears where its 0 lies now', async () => {
    const { listening, open, become, told } = session();
    const context = await open({}, 5);
    context.state = 'suspended';
    become('asleep');
    context.state = 'running';
    context.currentTime = 2;
    become('open');
    const { kind, startsAtSeconds } = told.at(-1) as { kind: string; startsAtSeconds: number };
    expect(kind).toBe('clock');
    expect(startsAtSeconds + 2).toBeCloseTo(listening.nowSeconds(), 6);
  });

  test('does not set the clock of the session back', async () => {
    const { listening, open, source } = session();
    const context = await open();
    context.currentTime = 100;
    expect(listening.nowSeconds()).toBeGreaterThanOrEqual(100);
    source().closed();
    expect(listening.nowSeconds()).toBeGreaterThanOrEqual(100);
    const next = await open({}, 7);
    next.currentTime = 8;
    expect(listening.nowSeconds()).toBeGreaterThanOrEqual(101);
    expect(listening.nowSeconds()).toBeLessThan(102);
  });
});

describe('our own sound', () => {
  test('closes the ear on the clock of the audio, a little longer than it sounds', async () => {
    const { listening, open, told } = session();
    const context = await open({}, 10);
    const before = listening.nowSeconds();
    context.currentTime = 12;
    listening.gate(0.5);
    expect(told.at(-1)).toEqual({ kind: 'gate', untilSample: Math.ceil((12 + 0.5 + 0.15) * 48000) });
    expect(listening.snapshot().mutedUntilSeconds - before).toBeCloseTo(2 + 0.65, 1);
  });

  test('of no length (volume 0) closes nothing', async () => {
    const { listening, open, told } = session();
    await open();
    const count = told.length;
    listening.gate(0);
    expect(told).toHaveLength(count);
  });
});

describe('a strum check', () => {
  test('answers each question by its own readings, and with null when the device goes meanwhile', async () => {
    const { listening, open, told, report, source } = session();
    await open();
    const one = listening.readStrum([[440]], 1);
    const two = listening.readStrum([[392]], 1);
    const three = listening.readStrum([[330]], 1);
    const ids = told.filter((control) => (control as { kind: string }).kind === 'strum').map((control) => (control as { id: number }).id);
    report({ kind: 'strum', id: ids[1]!, readings: [[{ hertz: 392, sigmaCents: 1 }]] });
    report({ kind: 'strum', id: ids[0]!, readings: [[{ refusal: 'unclear' }]] });
    source().closed();
    expect(await Promise.all([one, two, three])).toEqual([[[{ refusal: 'unclear' }]], [[{ hertz: 392, sigmaCents: 1 }]], null]);
    expect(await listening.readStrum([[440]], 1)).toBeNull();
  });
});
