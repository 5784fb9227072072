// Runs on the audio thread: gathers blocks of 128 samples into hops and hands them to the pitch worker; buffers come back and are used again.
// It never waits and, once its buffers are made, never allocates a large one: when all are out, hops are left out, and the gap in `firstSample` tells.
import type { CaptureControl, Hop } from './messages.ts';
import { hopSamples } from './messages.ts';
import { scope } from './worklet-scope.ts';

/** Two seconds of sound: for so long the worker may be busy with a strum, or the machine with something else. */
const spareBuffers = Math.ceil((2 * scope.sampleRate) / hopSamples);

class Capture extends scope.AudioWorkletProcessor {
  private readonly spare = Array.from({ length: spareBuffers }, () => new Float32Array(hopSamples));
  private samples = this.spare.pop();
  private filled = 0;
  private peaks: number[] = [];
  private channel = 0;
  private worker: MessagePort | null = null;

  constructor() {
    super();
    this.port.addEventListener('message', ({ data }: MessageEvent<CaptureControl>) => {
      this.channel = data.channel;
      if (!data.worker) return;
      this.worker = data.worker;
      this.worker.addEventListener('message', (back: MessageEvent<Float32Array<ArrayBuffer>>) => this.spare.push(back.data));
      this.worker.start();
    });
    this.port.start();
  }

  /** One block of 128 samples of every channel; no channels while nothing is connected. */
  process([input = []]: Float32Array[][]): boolean {
    const block = input[this.channel] ?? input[0];
    if (block) this.samples?.set(block, this.filled);
    else this.samples?.fill(0, this.filled, this.filled + 128);
    for (const [index, channel] of input.entries())
      for (const sample of channel) this.peaks[index] = Math.max(this.peaks[index] ?? 0, Math.abs(sample));
    this.filled += 128;
    if (this.filled === hopSamples) this.send();
    return true;
  }

  private send(): void {
    if (this.worker && this.samples) {
      const firstSample = scope.currentFrame + 128 - hopSamples;
      const hop: Hop = { firstSample, sampleRateHertz: scope.sampleRate, samples: this.samples, peaks: this.peaks };
      this.worker.postMessage(hop, [this.samples.buffer]);
      this.samples = undefined;
    }
    this.samples ??= this.spare.pop();
    this.filled = 0;
    this.peaks = [];
  }
}

scope.registerProcessor('capture', Capture);
