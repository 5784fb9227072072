import { PitchDetector } from 'pitchy';
import type { Peaks } from './peaks.ts';
import type { Hint } from './types.ts';
import { centsApart } from './string.ts';

/** A pitch that the sound may have, and how well it accounts for the peaks heard: 1 = all of them with nothing missing. */
export type Candidate = { hertz: number; score: number };

const lowestHertz = 26;
const highestHertz = 1_800;
const partialsAtMost = 20;
/** A peak this far below the strongest (log10 of power) no longer counts. */
const range = 5;
const missingCost = 0.42;
const divisors = 8;
const candidatesAtMost = 160;

/** What a hint adds to a candidate's score, by its distance from the nearest string that may sound, and from the one asked for. */
const hintBonus = (hint: Hint | null, hertz: number): number => {
  if (hint === null) return 0;
  let bonus = 0;
  for (let index = 0; index < hint.hertz.length; index++) {
    const distance = centsApart(hertz, hint.hertz[index] ?? hertz) / 150;
    bonus = Math.max(bonus, (index === hint.asked ? 0.12 : 0.08) * Math.exp(-distance * distance));
  }
  return bonus;
};

/**
 * Finds which string sounds, to within a few cents. Candidates are pitchy's reading (P. McLeod and G. Wyvill, "A smarter way to find
 * pitch", ICMC 2005), the peaks of the spectrum and their whole fractions, and the hint; each is judged by the peaks that it explains
 * against those that it misses (after R. Maher and J. Beauchamp, two-way mismatch, J. Acoust. Soc. Am. 95, 1994).
 */
export const createCoarse = (rateHertz: number) => {
  // In double precision like every other transform here: fed with one kind of array alone, fft.js runs twice as fast.
  const detectors = [512, 1024, 2048].map((length) => {
    const detector = PitchDetector.forFloat64Array(length);
    detector.clarityThreshold = 0.85;
    return { length, detector, input: new Float64Array(length) };
  });
  const tried = new Float64Array(candidatesAtMost);
  const weights = new Float64Array(1_024);

  /** pitchy's reading of the newest samples, or null. */
  const mcleod = (samples: Float64Array, end: number, length: number): number | null => {
    const fitting = detectors.findLast((entry) => entry.length <= length);
    if (fitting === undefined) return null;
    for (let index = 0; index < fitting.length; index++) fitting.input[index] = samples[end - fitting.length + index] ?? 0;
    const [hertz, clarity] = fitting.detector.findPitch(fitting.input, rateHertz);
    return clarity > 0.6 && hertz >= lowestHertz && hertz <= highestHertz ? hertz : null;
  };

  const judge = (peaks: Peaks, hertz: number, total: number, seconds: number): number => {
    let stretch = 0;
    let explained = 0;
    let missing = 0;
    let pending = 0;
    let matched = 0;
    let next = 0;
    const count = Math.min(partialsAtMost, Math.floor(4_700 / hertz));
    for (let n = 1; n <= count; n++) {
      const expected = n * hertz * (1 + stretch * n * n);
      const below = Math.max(0.7 / seconds, expected * 0.006);
      const above = Math.max(0.7 / seconds, expected * (0.006 + 0.0004 * n));
      while (next < peaks.count && (peaks.hertz[next] ?? 0) < expected - below) next++;
      let best = -1;
      for (let index = next; index < peaks.count && (peaks.hertz[index] ?? 0) <= expected + above; index++)
        if (best < 0 || (weights[index] ?? 0) > (weights[best] ?? 0)) best = index;
      if (best < 0 || (weights[best] ?? 0) <= 0) {
        pending++;
        continue;
      }
      next = best + 1;
      explained += weights[best] ?? 0;
      matched++;
      missing += pending;
      pending = 0;
      if (n > 3) stretch = Math.min(1.5e-3, Math.max(0, ((peaks.hertz[best] ?? 0) / (n * hertz) - 1) / (n * n)));
    }
    if (matched === 0) return 0;
    return (explained - missingCost * missing * (explained / matched)) / total;
  };

  return (peaks: Peaks, samples: Float64Array, end: number, length: number, hint: Hint | null): Candidate | null => {
    let strongest = -Infinity;
    for (let index = 0; index < peaks.count; index++) strongest = Math.max(strongest, peaks.level[index] ?? 0);
    let total = 0;
    for (let index = 0; index < peaks.count; index++) {
      weights[index] = Math.max(0, 1 + ((peaks.level[index] ?? 0) - strongest) / range);
      total += weights[index] ?? 0;
    }
    if (total === 0) return null;

    const seconds = length / rateHertz;
    let count = 0;
    let best = 0;
    let bestScore = -Infinity;
    const consider = (hertz: number, bonus: number) => {
      if (hertz < lowestHertz || hertz > highestHertz || hertz * seconds < 2.2 || count === candidatesAtMost) return;
      for (let index = 0; index < count; index++) if (Math.abs((tried[index] ?? 0) / hertz - 1) < 0.002) return;
      tried[count++] = hertz;
      const score = judge(peaks, hertz, total, seconds) + bonus + hintBonus(hint, hertz);
      if (score > bestScore) [best, bestScore] = [hertz, score];
    };
    const heard = mcleod(samples, end, length);
    if (heard !== null) consider(heard, 0.05);
    for (let index = 0; index < peaks.count; index++) {
      if ((weights[index] ?? 0) < 0.45) continue;
      for (let divisor = 1; divisor <= divisors; divisor++) consider((peaks.hertz[index] ?? 0) / divisor, 0);
    }
    return bestScore > 0 ? { hertz: best, score: bestScore } : null;
  };
};
