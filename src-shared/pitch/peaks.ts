import type { Spectrum } from './spectrum.ts';

/** The peaks of a spectrum that stand above the noise, in rising order of frequency. Reused by the next call. */
export type Peaks = {
  count: number;
  hertz: Float64Array;
  /** log10 of power */ level: Float64Array;
  aboveFloor: Float64Array;
};

const peaksAtMost = 96;
const aboveFloorAtLeast = 12;

/** Finds peaks by a parabola through the log power of three bins (J. Smith and X. Serra, ICMC 1987). */
export const createPeakFinder = () => {
  const peaks: Peaks = {
    count: 0,
    hertz: new Float64Array(peaksAtMost),
    level: new Float64Array(peaksAtMost),
    aboveFloor: new Float64Array(peaksAtMost),
  };
  return ({ power, floor, bins, hertzPerBin, seconds }: Spectrum): Peaks => {
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
      peaks.level[peaks.count] = Math.log10(here);
      peaks.aboveFloor[peaks.count] = here / (floor[bin] ?? 1);
      peaks.count++;
    }
    return peaks;
  };
};
