import type { Clip } from './clip.ts';
import { sampleRateHertz } from './clip.ts';
import { blockSamples, type Reader } from './readers.ts';

/** What a player sees at a moment: a value at most 100 ms old, or null. */
type Shown = { atSeconds: number; hertz: number | null; sigmaCents: number | null };

const staleSeconds = 0.1;
/** From this long after the pluck every moment counts. */
const judgedFromSeconds = 0.15;
const goodCents = 3;
const grossCents = 50;

/** What was shown, every 10 ms. */
const show = (clip: Clip, reader: Reader): Shown[] => {
  const shown: Shown[] = [];
  let last: { hertz: number; sigmaCents: number | null; atSeconds: number } | null = null;
  for (let end = blockSamples; end <= clip.samples.length; end += blockSamples) {
    const atSeconds = end / sampleRateHertz;
    const value = reader(clip.samples, end);
    if (value !== null) last = { ...value, atSeconds };
    const fresh: typeof last = last !== null && atSeconds - last.atSeconds <= staleSeconds ? last : null;
    shown.push({ atSeconds, hertz: fresh?.hertz ?? null, sigmaCents: fresh?.sigmaCents ?? null });
  }
  return shown;
};

export type Score = {
  errors: number[];
  /** |error| over sigma. */
  ratios: number[];
  missed: number;
  ticks: number;
  shownBefore: number;
  ticksBefore: number;
  /** Per clip, when the value began to stay within 3 cents, in seconds after the pluck; Infinity where it never did. */
  settleSeconds: number[];
};

export const emptyScore = (): Score => ({ errors: [], ratios: [], missed: 0, ticks: 0, shownBefore: 0, ticksBefore: 0, settleSeconds: [] });

/** What one reader made of one clip. */
export const scoreOf = (clip: Clip, reader: Reader): Score => {
  const score = emptyScore();
  let settled: number | null = null;
  for (const { atSeconds, hertz, sigmaCents } of show(clip, reader)) {
    const since = atSeconds - clip.pluckedAtSeconds;
    const error = hertz === null ? null : 1200 * Math.log2(hertz / clip.truthHertz(atSeconds));
    if (since < -0.01 && clip.othersRing === undefined) {
      score.ticksBefore++;
      if (hertz !== null) score.shownBefore++;
    }
    if (since < 0) continue;
    if (error === null || Math.abs(error) > goodCents) settled = null;
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
  return score;
};

export const addTo = (sum: Score, score: Score): void => {
  for (const key of ['errors', 'ratios', 'settleSeconds'] as const) for (const value of score[key]) sum[key].push(value);
  for (const key of ['missed', 'ticks', 'shownBefore', 'ticksBefore'] as const) sum[key] += score[key];
};

/** Share of the moments that count at which something within `limit` cents was shown, 0…1. */
export const within = ({ errors, ticks }: Score, limit: number) => errors.filter((error) => Math.abs(error) <= limit).length / ticks;
/** Share of the moments at which something further than a quarter tone away was shown, 0…1. */
export const gross = ({ errors, ticks }: Score) => errors.filter((error) => Math.abs(error) > grossCents).length / ticks;

/** The value below which `share` of the absolute values lie. */
export const quantile = (values: readonly number[], share: number): number => {
  const sorted = values.map(Math.abs).sort((left, right) => left - right);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN;
};
