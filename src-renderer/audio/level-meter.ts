/** How loud an input is, about twenty times a second. */
export type Level = {
  readonly atSeconds: number;
  /** Per channel of the input, the peak since the last report in dB of full scale; null for exact zeros. */
  readonly peaksDecibels: readonly (number | null)[];
  /** Per channel, for how long there have been nothing but exact zeros. */
  readonly zerosSeconds: readonly number[];
  /** Per channel, whether it touched full scale since the last report. */
  readonly clipped: readonly boolean[];
  /** Hops of sound lost since the source was opened, because the machine was too busy; 0 as long as all is well. */
  readonly droppedHops: number;
};

const reportSeconds = 0.045;
/** A converter at its limit gives 32767/32768 or more; a little below counts as well (own choice). */
const fullScale = 0.999;
/** Longer than any gap of a device that works: then an input is called silent. */
const silentSeconds = 3;

/** Whether a channel (the first, where the input has no such one) has been at exact zero for so long that something must be wrong: a working input has at least noise. `isSilent(level, 0)`. */
export const isSilent = (level: Level, channel: number): boolean =>
  (level.zerosSeconds[channel] ?? level.zerosSeconds[0] ?? 0) >= silentSeconds;

/** Gathers the peaks of hops into reports. `meter.push([0.5], hopSeconds, atSeconds, 0)` → a level every fourth hop or so, else null. */
export const createLevelMeter = () => {
  let peaks: number[] = [];
  let zeros: number[] = [];
  let sinceReport = 0;
  return {
    push: (heardPeaks: readonly number[], hopSeconds: number, atSeconds: number, droppedHops: number): Level | null => {
      // An input that sends no channel at all sends silence.
      const hopPeaks = heardPeaks.length > 0 ? heardPeaks : [0];
      peaks = hopPeaks.map((peak, channel) => Math.max(peak, peaks[channel] ?? 0));
      zeros = hopPeaks.map((peak, channel) => (peak === 0 ? (zeros[channel] ?? 0) + hopSeconds : 0));
      sinceReport += hopSeconds;
      if (sinceReport < reportSeconds) return null;
      const level: Level = {
        atSeconds,
        peaksDecibels: peaks.map((peak) => (peak === 0 ? null : 20 * Math.log10(peak))),
        zerosSeconds: zeros,
        clipped: peaks.map((peak) => peak >= fullScale),
        droppedHops,
      };
      peaks = [];
      sinceReport = 0;
      return level;
    },
  };
};
