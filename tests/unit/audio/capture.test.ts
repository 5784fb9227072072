import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import type { CaptureControl, Hop } from '../../../src-renderer/audio/messages.ts';

/** One end of a port that keeps what was posted to it and hands over what it is told. */
class FakePort extends EventTarget {
  readonly posted: unknown[] = [];
  start = () => {};
  postMessage = (message: unknown) => void this.posted.push(message);
  say = (data: unknown) => this.dispatchEvent(Object.assign(new Event('message'), { data }));
}

type Processor = { port: FakePort; process: (inputs: Float32Array[][]) => boolean };

/** The worklet in a stand-in for the audio thread. */
const capture = async (rate: number) => {
  let made: (new () => Processor) | null = null;
  vi.stubGlobal('sampleRate', rate);
  vi.stubGlobal('currentFrame', 0);
  vi.stubGlobal(
    'AudioWorkletProcessor',
    class {
      readonly port = new FakePort();
    },
  );
  vi.stubGlobal('registerProcessor', (_: string, processor: new () => Processor) => {
    made = processor;
  });
  await import('../../../src-renderer/audio/capture.worklet.ts');
  const processor = new made!();
  const worker = new FakePort();
  const control = (message: Omit<CaptureControl, 'worker'>, withWorker = false) =>
    processor.port.say(withWorker ? { ...message, worker } : message);
  let frame = 0;
  return {
    control,
    worker,
    /** So many blocks of 128 samples, each channel at its own level. */
    play: (blocks: number, levels: readonly number[]) => {
      for (let block = 0; block < blocks; block += 1, frame += 128) {
        vi.stubGlobal('currentFrame', frame);
        processor.process([levels.map((level) => new Float32Array(128).fill(level))]);
      }
    },
    hops: () => worker.posted as Hop[],
  };
};

beforeEach(() => vi.resetModules());
afterEach(() => vi.unstubAllGlobals());

describe('a stereo input', () => {
  test('is read on the channel that was chosen; the peaks of both are told, and its rate', async () => {
    const { control, play, hops } = await capture(88_200);
    control({ channel: 1 }, true);
    play(8, [0.25, -0.5]);
    expect(hops().map(({ samples }) => [...new Set(samples)])).toEqual([[-0.5], [-0.5]]);
    expect(hops().map(({ peaks, sampleRateHertz, firstSample }) => [peaks, sampleRateHertz, firstSample])).toEqual([
      [[0.25, 0.5], 88_200, 0],
      [[0.25, 0.5], 88_200, 512],
    ]);
    control({ channel: 0 });
    play(4, [0.25, -0.5]);
    expect(new Set(hops()[2]?.samples)).toEqual(new Set([0.25]));
  });

  test('that loses its second channel goes on with the first', async () => {
    const { control, play, hops } = await capture(48_000);
    control({ channel: 1 }, true);
    play(4, [0.25]);
    expect(new Set(hops()[0]?.samples)).toEqual(new Set([0.25]));
  });
});

describe('a worker that is late', () => {
  test('gets two seconds of hops, then a gap in their counting, and goes on when buffers are back', async () => {
    const { control, play, hops, worker } = await capture(48_000);
    control({ channel: 0 }, true);
    play(4 * 200, [0.1]);
    const sent = hops().length;
    expect(sent).toBe(188);
    worker.say(new Float32Array(512));
    play(8, [0.1]);
    const [last, next] = hops().slice(-2);
    expect(hops()).toHaveLength(sent + 1);
    expect((next?.firstSample ?? 0) - (last?.firstSample ?? 0)).toBeGreaterThan(512);
  });
});
