import type { Hint, PitchEvent, StrumReading } from '#shared/pitch/index.ts';
import type { Level } from './level-meter.ts';

/** Samples in a hop: 11.6 ms at 44.1 kHz. A multiple of the 128 of which audio contexts make blocks. */
export const hopSamples = 512;

/**
 * Worklet → worker. The rate travels with the sound, so that no sample is read at another's. `peaks` is the largest absolute value per channel
 * of the input; `samples` goes back over the same port to be used again.
 */
export type Hop = {
  readonly firstSample: number;
  readonly sampleRateHertz: number;
  readonly samples: Float32Array<ArrayBuffer>;
  readonly peaks: readonly number[];
};

/** Page → worklet: which channel to hand on, and once the port to the worker. */
export type CaptureControl = { readonly channel: number; readonly worker?: MessagePort };

/** The expected pitches, course by course and string by string. */
export type CoursesHertz = readonly (readonly number[])[];
/** What was heard of them; null where there was not enough sound to read. */
export type StrumReadings = readonly (readonly StrumReading[])[] | null;

/** Page → worker. Times in samples are on the clock of the audio context. */
export type WorkerControl =
  | {
      readonly kind: 'attach';
      readonly hops: MessagePort;
      readonly startsAtSeconds: number;
      readonly hint: Hint | null;
    }
  | { readonly kind: 'clock'; readonly startsAtSeconds: number }
  | { readonly kind: 'expect'; readonly hint: Hint | null }
  | { readonly kind: 'reset' }
  | { readonly kind: 'gate'; readonly untilSample: number }
  | { readonly kind: 'strum'; readonly id: number; readonly coursesHertz: CoursesHertz; readonly lastSeconds: number };

/** Worker → page. */
export type WorkerReport =
  | { readonly kind: 'pitch'; readonly events: readonly PitchEvent[] }
  | { readonly kind: 'level'; readonly level: Level }
  | { readonly kind: 'strum'; readonly id: number; readonly readings: StrumReadings };
