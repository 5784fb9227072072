import { createPitchTracker, type Hint, type PitchEvent, type PitchFrame } from '#shared/pitch/index.ts';

export const centsBetween = (heard: number, wanted: number) => 1200 * Math.log2(heard / wanted);

/** Everything that a fresh tracker says about a clip, fed in blocks. */
export const listenTo = (
  samples: Float32Array,
  {
    sampleRateHertz = 48_000,
    blockSamples = 480,
    hint = null,
  }: { sampleRateHertz?: number; blockSamples?: number; hint?: Hint | null } = {},
): PitchEvent[] => {
  const tracker = createPitchTracker({ sampleRateHertz, hint });
  const events: PitchEvent[] = [];
  for (let start = 0; start < samples.length; start += blockSamples)
    events.push(...tracker.push(samples.subarray(start, start + blockSamples)));
  return events;
};

export const framesOf = (events: readonly PitchEvent[]): PitchFrame[] => events.filter((event) => event.kind === 'frame');

/** Errors of all frames against the truth at their own moment, in cents. */
export const errorsOf = (events: readonly PitchEvent[], truthHertz: (atSeconds: number) => number) =>
  framesOf(events).map((frame) => centsBetween(frame.hertz, truthHertz(frame.atSeconds)));

/** The value below which `share` of the absolute values lie. */
export const quantile = (values: readonly number[], share: number) => {
  const sorted = values.map(Math.abs).sort((left, right) => left - right);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Infinity;
};
