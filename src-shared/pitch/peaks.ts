import { hannLeak } from './partial.ts';
import type { Powers } from './spectrum.ts';

/** The peaks of a spectrum that stand above the noise, in rising order of frequency. Reused by the next call. */
export type Peaks = {
  count: number;
  hertz: Float64Array;
  /** log10 of power */ level: Float64Array;
  aboveFloor: Float64Array;
};

const peaksAtMost = 1_024;
const aboveFloorAtLeast = 12;
/** A peak this many times above what a stronger one leaks to its place is no side lobe. */
const aboveLeakAtLeast = 6;

/**
 * Finds peaks by a parabola through the log power of three bins (J. Smith and X. Serra, ICMC 1987). The side lobes of stronger peaks,
 * which stand above the floor where there is hardly any noise, are left out.
 */
export const createPeakFinder = () => {
  const peaks: Peaks = {
    count: 0,
    hertz: new Float64Array(peaksAtMost),
    level: new Float64Array(peaksAtMost),
    aboveFloor: new Float64Array(peaksAtMost),
  };
  const powers = new Float64Array(peaksAtMost);

  const isSideLobe = (index: number, seconds: number): boolean => {
    const power = powers[index] ?? 0;
    for (let other = 0; other < peaks.count; other++) {
      const stronger = powers[other] ?? 0;
      if (stronger <= aboveLeakAtLeast * power) continue;
      const bins = Math.abs((peaks.hertz[other] ?? 0) - (peaks.hertz[index] ?? 0)) * seconds;
      if (power < aboveLeakAtLeast * stronger * hannLeak(bins)) return true;
    }
    return false;
  };

  /** Leaves the peaks that no stronger one explains. */
  const dropSideLobes = (seconds: number) => {
    const { count } = peaks;
    for (let index = 0; index < count; index++) if (isSideLobe(index, seconds)) peaks.aboveFloor[index] = 0;
    let kept = 0;
    for (let index = 0; index < count; index++) {
      if (peaks.aboveFloor[index] === 0) continue;
      peaks.hertz[kept] = peaks.hertz[index] ?? 0;
      peaks.level[kept] = peaks.level[index] ?? 0;
      peaks.aboveFloor[kept] = peaks.aboveFloor[index] ?? 0;
      kept++;
    }
    peaks.count = kept;
  };

  return ({ power, floor, bins, hertzPerBin, seconds }: Powers): Peaks => {
    peaks.count = 0;
    const spread = Math.max(1, Math.round(0.5 / seconds / hertzPerBin));
    const lowest = Math.max(spread, Math.ceil(20 / hertzPerBin));
    for (let bin = lowest; bin < bins - spread && peaks.count < peaksAtMost; bin++) {
      const here = power[bin] ?? 0;
      if (here < aboveFloorAtLeast * (floor[bin] ?? 0)) continue;
      let largest = true;
      for (let step = 1; step <= spread && largest; step++) largest = here > (power[bin - step] ?? 0) && here >= (power[bin + step] ?? 0);
      if (!largest) continue;
      const left = Math.log(power[bin - 1] ?? 0);
      const middle = Math.log(here);
      const right = Math.log(power[bin + 1] ?? 0);
      const offset = (0.5 * (left - right)) / (left - 2 * middle + right);
      peaks.hertz[peaks.count] = (bin + (Number.isFinite(offset) ? offset : 0)) * hertzPerBin;
      powers[peaks.count] = here;
      peaks.level[peaks.count] = Math.log10(here);
      peaks.aboveFloor[peaks.count] = here / (floor[bin] ?? 1);
      peaks.count++;
    }
    dropSideLobes(seconds);
    return peaks;
  };
};
