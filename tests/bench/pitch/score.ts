import { createPitchTracker, type Hint } from '#shared/pitch/index.ts';
import { PitchDetector } from 'pitchy';
import { sampleRateHertz, type Clip } from './classes.ts';

/** What a player sees at a moment: a value at most 100 ms old, or null. */
export type Shown = { atSeconds: number; hertz: number | null; sigmaCents: number | null };

const blockSamples = 480;
const staleSeconds = 0.1;

/** An estimator fed block by block; gives a new value, or null where it has none. */
type Reader = (samples: Float32Array, end: number) => { hertz: number; sigmaCents: number | null } | null;

const tracker = (hint: Hint | null): Reader => {
  const tracker = createPitchTracker({ sampleRateHertz, hint });
  return (samples, end) => {
    const frame = tracker.push(samples.subarray(end - blockSamples, end)).findLast((event) => event.kind === 'frame');
    return frame?.kind === 'frame' ? frame : null;
  };
};

/** pitchy as its own documentation uses it, with a gate on clarity. */
const naive = (length: number): Reader => {
  const detector = PitchDetector.forFloat32Array(length);
  return (samples, end) => {
    if (end < length) return null;
    const [hertz, clarity] = detector.findPitch(samples.subarray(end - length, end), sampleRateHertz);
    return clarity >= 0.9 && hertz > 20 && hertz < 2_000 ? { hertz, sigmaCents: null } : null;
  };
};

export const readers: Record<string, (clip: Clip) => Reader> = {
  ours: (clip) => tracker({ hertz: clip.strings, asked: clip.asked }),
  'no hint': () => tracker(null),
  'pitchy 2048': () => naive(2_048),
  'pitchy 4096': () => naive(4_096),
};

/** What was shown, every 10 ms, and the milliseconds that each block cost. */
export const show = (clip: Clip, reader: Reader): { shown: Shown[]; costs: number[] } => {
  const shown: Shown[] = [];
  const costs: number[] = [];
  let last: { hertz: number; sigmaCents: number | null; atSeconds: number } | null = null;
  for (let end = blockSamples; end <= clip.samples.length; end += blockSamples) {
    const atSeconds = end / sampleRateHertz;
    const started = performance.now();
    const value = reader(clip.samples, end);
    costs.push(performance.now() - started);
    if (value !== null) last = { ...value, atSeconds };
    const fresh: typeof last = last !== null && atSeconds - last.atSeconds <= staleSeconds ? last : null;
    shown.push({ atSeconds, hertz: fresh?.hertz ?? null, sigmaCents: fresh?.sigmaCents ?? null });
  }
  return { shown, costs };
};

export type Score = {
  errors: number[];
  /** |error| over sigma. */
  ratios: number[];
  missed: number;
  ticks: number;
  shownBefore: number;
  ticksBefore: number;
  settleSeconds: number[];
};

export const emptyScore = (): Score => ({ errors: [], ratios: [], missed: 0, ticks: 0, shownBefore: 0, ticksBefore: 0, settleSeconds: [] });

/** From this long after the pluck every moment counts. */
const judgedFromSeconds = 0.15;

export const addTo = (score: Score, clip: Clip, shown: readonly Shown[]): void => {
  let settled: number | null = null;
  for (const { atSeconds, hertz, sigmaCents } of shown) {
    const since = atSeconds - clip.pluckedAtSeconds;
    const error = hertz === null ? null : 1200 * Math.log2(hertz / clip.clean.truthHertz(atSeconds));
    if (since < -0.01) {
      score.ticksBefore++;
      if (hertz !== null) score.shownBefore++;
    }
    if (since < 0) continue;
    if (error === null || Math.abs(error) > 3) settled = null;
    else settled ??= since;
    if (since < judgedFromSeconds) continue;
    score.ticks++;
    if (error === null) score.missed++;
    else {
      score.errors.push(error);
      if (sigmaCents !== null) score.ratios.push(Math.abs(error) / sigmaCents);
    }
  }
  score.settleSeconds.push(settled ?? Infinity);
};

export const quantile = (values: readonly number[], share: number): number => {
  const sorted = values.map(Math.abs).sort((left, right) => left - right);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN;
};
