import type { SoundingSetup } from '#shared/simulation/sounding/index.ts';
// oxlint-disable-next-line import/default
import soundingUrl from './sounding.worklet.ts?worker&url';
import { type AudioWorld, openContext, watchSleep } from './audio-context.ts';
import { asleepState } from './microphone-state.ts';
import type { SoundSource, SourceListener } from './source.ts';

/** What a hand does to a virtual instrument. Courses and strings count from the player's eye, from 0; cents are positive where it tightens. */
export type Hand =
  | { readonly kind: 'pluck'; readonly course: number; readonly string?: number }
  | { readonly kind: 'turn'; readonly course: number; readonly string: number; readonly cents: number }
  | { readonly kind: 'strum' }
  | { readonly kind: 'damp' };

/** An instrument of sound alone: a hand on it, and a source that hears it. It goes on sounding and creeping while nobody listens. */
export type VirtualInstrument = { readonly hand: (hand: Hand) => void; readonly source: SoundSource };

type Options = { readonly label: string; readonly setup: Omit<SoundingSetup, 'sampleRateHertz'> };
type World = AudioWorld & { readonly openNode: (context: AudioContext, setup: Options['setup']) => Promise<AudioWorkletNode> };

const openNode: World['openNode'] = async (context, processorOptions) => {
  await context.audioWorklet.addModule(soundingUrl);
  return new AudioWorkletNode(context, 'sounding', { numberOfInputs: 0, outputChannelCount: [1], processorOptions });
};

/**
 * Makes a virtual instrument; its audio begins with the first hand on it, or with whoever listens first. It is also heard.
 * `createVirtualInstrument({ label: 'Wren on the screen', setup }).hand({ kind: 'pluck', course: 0 })`.
 */
export const createVirtualInstrument = (
  { label, setup }: Options,
  world: World = { openContext, openNode, page: window },
): VirtualInstrument => {
  let listener: SourceListener | null = null;
  let unwatch: (() => void) | null = null;
  let made: Promise<{ readonly context: AudioContext; readonly node: AudioWorkletNode }> | null = null;

  const make = async () => {
    const context = world.openContext(null);
    try {
      const node = await world.openNode(context, setup);
      node.connect(context.destination);
      return { context, node };
    } catch (error) {
      // Nobody else holds it: a failure to close has nobody to be told to.
      context.close().catch(() => {});
      throw error;
    }
  };
  const ready = () =>
    (made ??= make().catch((error: unknown) => {
      made = null;
      throw error;
    }));

  const open = async () => {
    const { context, node } = await ready();
    const input = { label, deviceId: null, sampleRateHertz: context.sampleRate, channelCount: 1, processing: [], advice: [] };
    await listener?.opened({ context, node, input });
    if (listener === null) return;
    unwatch?.();
    unwatch = watchSleep(
      context,
      (asleep) => listener?.changed(asleep ? asleepState : { kind: 'open', sentence: `Listening to ${label}.`, remedy: null }),
      world.page,
    );
  };

  const openOrSay = () =>
    open().catch(() =>
      listener?.changed({ kind: 'failed', sentence: 'The strings on the screen could not be loaded. Try again.', remedy: 'retry' }),
    );

  return {
    hand: (hand) => {
      void ready()
        .then(async ({ context, node }) => {
          if (context.state === 'suspended') await context.resume();
          node.port.postMessage(hand, []);
        })
        // Strings that could not be loaded stay still; the next hand tries again, and whoever listens is told by the source.
        .catch(() => {});
    },
    source: {
      kind: 'virtual',
      label,
      start: (newListener) => {
        listener = newListener;
        return openOrSay();
      },
      retry: async () => {
        listener?.closed();
        await openOrSay();
      },
      stop: () => {
        unwatch?.();
        unwatch = null;
        listener?.closed();
        listener?.changed({ kind: 'closed', sentence: 'Not listening.', remedy: 'retry' });
        listener = null;
      },
    },
  };
};
