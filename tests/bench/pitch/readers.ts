import { createPitchTracker, type Hint } from '#shared/pitch/index.ts';
import { PitchDetector } from 'pitchy';
import { sampleRateHertz, type Clip } from './clip.ts';

export const blockSamples = 480;
const clarityAtLeast = 0.9;

/** An estimator fed block by block; gives a new value, or null where it has none. */
export type Reader = (samples: Float32Array, end: number) => { hertz: number; sigmaCents: number | null } | null;

const tracker = (hint: Hint | null): Reader => {
  const { push } = createPitchTracker({ sampleRateHertz, hint });
  return (samples, end) => push(samples.subarray(end - blockSamples, end)).findLast((event) => event.kind === 'frame') ?? null;
};

/** pitchy as its own documentation uses it, with a gate on clarity. */
const naive = (length: number): Reader => {
  const detector = PitchDetector.forFloat32Array(length);
  return (samples, end) => {
    if (end < length) return null;
    const [hertz, clarity] = detector.findPitch(samples.subarray(end - length, end), sampleRateHertz);
    return clarity >= clarityAtLeast && hertz > 20 && hertz < 2_000 ? { hertz, sigmaCents: null } : null;
  };
};

export const ours = (clip: Clip): Reader => tracker({ hertz: clip.strings, asked: clip.asked });
export const oursWithoutHint = (): Reader => tracker(null);
export const naiveReaders: Record<string, () => Reader> = { 'pitchy 2048': () => naive(2_048), 'pitchy 4096': () => naive(4_096) };
