import { readWav } from '#shared/recording/index.ts';
import type { AudioWorld } from './audio-context.ts';
import { openContext, watchSleep } from './audio-context.ts';
import { asleepState } from './microphone-state.ts';
import type { InputFacts, SoundSource, SourceListener, SoundState } from './source.ts';

export type RecordingOptions = {
  /** What the player calls it. */
  readonly label: string;
  /** The content of a WAV file. */
  readonly bytes: Uint8Array;
  /** From the start again at the end, without a gap. Default false: state `ended`, and `retry` plays it again. */
  readonly loop?: boolean;
  /** Whether it is also heard. Default false. */
  readonly audible?: boolean;
};

/**
 * A WAV file in place of a microphone: played in real time by the clock of an audio context at the file's own rate, so that every sample arrives as it is stored.
 * A file that can't be read gives state `failed` with the reader's sentence.
 * `startListening(createRecordingSource({ label: 'Demo', bytes, loop: true }))`.
 */
export const createRecordingSource = (
  { label, bytes, loop = false, audible = false }: RecordingOptions,
  world: AudioWorld = { openContext, page: window },
): SoundSource => {
  let listener: SourceListener | null = null;
  let context: AudioContext | null = null;
  let ended = false;
  let release: (() => void) | null = null;

  const tell = (kind: SoundState['kind'], sentence: string, remedy: SoundState['remedy']) => listener?.changed({ kind, sentence, remedy });

  const close = () => {
    release?.();
    release = null;
    context = null;
  };

  const open = async () => {
    close();
    const recording = readWav(bytes);
    if ('failure' in recording) return tell('failed', recording.failure.sentence, 'choose-input');
    const { sampleRateHertz, channels } = recording;
    const opened = world.openContext(sampleRateHertz);
    const node = playable(opened, sampleRateHertz, channels);
    node.loop = loop;
    if (audible) node.connect(opened.destination);
    context = opened;
    ended = false;
    let unwatch: (() => void) | null = null;
    release = () => {
      unwatch?.();
      opened.close().catch(() => {});
      listener?.closed();
    };
    const input: InputFacts = {
      label,
      deviceId: null,
      sampleRateHertz: opened.sampleRate,
      channelCount: channels.length,
      processing: [],
      advice: [],
    };
    await listener?.opened({ context: opened, node, input });
    if (context !== opened) return;
    node.addEventListener('ended', () => {
      ended = true;
      tell('ended', `${label} has ended.`, 'retry');
    });
    node.start();
    unwatch = watchSleep(
      opened,
      (asleep) => {
        if (ended) return;
        if (asleep) listener?.changed(asleepState);
        else tell('open', `Listening to ${label}.`, null);
      },
      world.page,
    );
  };

  return {
    kind: 'recording',
    label,
    start: async (newListener) => {
      listener = newListener;
      await open();
    },
    retry: async () => {
      if (context && !ended && context.state !== 'running') await context.resume();
      else await open();
    },
    stop: () => {
      close();
      tell('closed', 'Not listening.', 'retry');
      listener = null;
    },
  };
};

const playable = (context: AudioContext, sampleRateHertz: number, channels: readonly Float32Array[]) => {
  const buffer = context.createBuffer(channels.length, channels[0]?.length ?? 0, sampleRateHertz);
  for (const [index, channel] of channels.entries()) buffer.getChannelData(index).set(channel);
  const node = context.createBufferSource();
  node.buffer = buffer;
  return node;
};
