// Runs on the audio thread: renders a virtual instrument and does to it what the player's hand on the screen does.
import { createSounding, type SoundingSetup } from '#shared/simulation/sounding/index.ts';
import type { Hand } from './virtual-instrument.ts';
import { scope } from './worklet-scope.ts';

class SoundingProcessor extends scope.AudioWorkletProcessor {
  private readonly sounding;

  constructor({ processorOptions }: { readonly processorOptions: Omit<SoundingSetup, 'sampleRateHertz'> }) {
    super();
    this.sounding = createSounding({ ...processorOptions, sampleRateHertz: scope.sampleRate });
    this.port.addEventListener('message', ({ data }: MessageEvent<Hand>) => this.act(data));
    this.port.start();
  }

  private act(hand: Hand): void {
    if (hand.kind === 'turn') this.sounding.turnPeg(hand.course, hand.string, hand.cents);
    else if (hand.kind === 'pluck') this.sounding.pluck(hand.course, hand.string);
    else if (hand.kind === 'strum') this.sounding.strum();
    else this.sounding.damp();
  }

  process(_: unknown, [output = []]: Float32Array[][]): boolean {
    if (output[0]) this.sounding.render(output[0]);
    return true;
  }
}

scope.registerProcessor('sounding', SoundingProcessor);
