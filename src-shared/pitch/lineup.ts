import { lineOf, mixLine, projectOn, type Line } from './lines.ts';
import { emptyPartial, measurePartial, type Partial } from './partial.ts';
import { createPeakFinder } from './peaks.ts';
import { createSpectrometer } from './spectrum.ts';
import { zoomInto } from './zoom.ts';

/** Zero padding to at least twice the length. */
const sizeFor = (length: number) => (length > 8_192 ? 32_768 : 16_384);
const linesAtMost = 64;
const ratioAtLeast = 16;
/** Lines nearer than this many bins of the stretch disturb one another and are measured again, each without the others. */
const closeBins = 6;
const sweeps = 3;
const fastestDecay = 40;

/** The sinusoids of a stretch in rising order, and the sound near a frequency with all those further away taken out. */
export type LineUp = { lines: Partial[]; alone: (hertz: number, reachHertz: number) => Float64Array };

/**
 * All sinusoids of a stretch of sound, each measured with the others taken away: RELAX, J. Li and P. Stoica, "Efficient mixed-spectrum
 * estimation with applications to target feature extraction", IEEE Trans. Signal Processing 44, 1996. Some
 * tens of milliseconds; for a single strum, not for a stream. At most 16384 samples.
 */
export const lineUp = (samples: Float64Array, start: number, length: number, rateHertz: number): LineUp => {
  const { spectrumOf } = createSpectrometer(sizeFor(length), rateHertz);
  const findPeaks = createPeakFinder();
  const rest = samples.slice(start, start + length);
  const origin = length / 2;
  const found: { partial: Partial; line: Line }[] = [];

  const place = (entry: { partial: Partial; line: Line }) => {
    entry.line = lineOf(entry.partial, rateHertz);
    projectOn(entry.line, rest, 0, length, origin, rateHertz, entry.line);
    mixLine(entry.line, rest, -1, length, origin, rateHertz);
  };

  /** Adds the peaks of what is left, the strongest first. */
  const addPeaks = () => {
    const spectrum = spectrumOf(rest, 0, length);
    const peaks = findPeaks(spectrum);
    const fresh: Partial[] = [];
    for (let index = 0; index < peaks.count; index++) {
      const partial = emptyPartial();
      const hertz = peaks.hertz[index] ?? 0;
      if (!measurePartial(spectrum, hertz, partial) || partial.ratio < ratioAtLeast) continue;
      if (Math.abs(partial.hertz - hertz) > 1 / spectrum.seconds || Math.abs(partial.decayPerSecond) > fastestDecay) continue;
      if (found.some((entry) => Math.abs(entry.partial.hertz - partial.hertz) < 0.7 / spectrum.seconds)) continue;
      fresh.push(partial);
    }
    fresh.sort((left, right) => right.power - left.power);
    for (const partial of fresh.slice(0, linesAtMost - found.length)) {
      const entry = { partial, line: lineOf(partial, rateHertz) };
      found.push(entry);
      place(entry);
    }
  };

  const isClose = (entry: { partial: Partial }) =>
    found.some((other) => other !== entry && Math.abs(other.partial.hertz - entry.partial.hertz) < (closeBins * rateHertz) / length);

  addPeaks();
  addPeaks();
  const spectrum = spectrumOf(rest, 0, length);
  for (let sweep = 0; sweep < sweeps; sweep++)
    for (const entry of found) {
      if (!isClose(entry)) continue;
      mixLine(entry.line, rest, 1, length, origin, rateHertz);
      const again = emptyPartial();
      zoomInto(spectrum, rest, length, entry.partial.hertz, rateHertz);
      if (measurePartial(spectrum, entry.partial.hertz, again) && Math.abs(again.decayPerSecond) < fastestDecay) entry.partial = again;
      place(entry);
    }
  return {
    lines: found.map((entry) => entry.partial).sort((left, right) => left.hertz - right.hertz),
    alone: (hertz, reachHertz) => {
      const sound = rest.slice();
      for (const { line, partial } of found)
        if (Math.abs(partial.hertz - hertz) < reachHertz) mixLine(line, sound, 1, length, origin, rateHertz);
      return sound;
    },
  };
};
