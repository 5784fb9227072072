type Processor = { readonly port: MessagePort };

/**
 * What an AudioWorklet finds in its global scope, which the DOM library of the compiler does not describe (Web Audio API, §1.32).
 * `processorOptions` are whatever the page gave the node.
 */
type WorkletScope = {
  readonly currentFrame: number;
  readonly sampleRate: number;
  readonly AudioWorkletProcessor: new () => Processor;
  readonly registerProcessor: (name: string, processor: new (options: { readonly processorOptions: never }) => Processor) => void;
};

export const scope = globalThis as unknown as WorkletScope;
