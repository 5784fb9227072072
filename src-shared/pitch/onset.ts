import FFT from 'fft.js';

const windowSize = 256;
const window = Float64Array.from({ length: windowSize }, (_, index) => 0.5 - 0.5 * Math.cos((2 * Math.PI * (index + 0.5)) / windowSize));
const hopSeconds = 0.005;
const backgroundSeconds = 0.15;
const restSeconds = 0.025;
/** A bin must rise by this (natural log of power) before it counts; noise alone passes in 1 % of the bins. */
const riseAtLeast = 2;
/** Steady noise stays below 1; a pluck as loud as the noise around it reaches 10, one in a quiet room 300. */
const noveltyAtLeast = 5;
/** While the background is hardly known, only a plain rise counts. */
const noveltyAtFirst = 60;
const hopsToKnow = 14;
/** Power per bin that is never news: about −80 dBFS spread over the band. */
const quietPower = 1e-5;

/**
 * Hears plucks by half-wave rectified spectral flux on a log scale: J. P. Bello et al., "A Tutorial on Onset Detection in Music
 * Signals", IEEE Trans. Speech and Audio Processing 13, 2005. Call `hear` after every working sample; it returns the working-sample
 * count of a pluck just heard, or null.
 */
export const createOnsetDetector = (rateHertz: number) => {
  const fft = new FFT(windowSize);
  const input = new Float64Array(windowSize);
  const output = new Float64Array(2 * windowSize);
  const bins = windowSize / 2;
  const background = new Float64Array(bins);
  const hop = Math.round(hopSeconds * rateHertz);
  const share = 1 - Math.exp(-hopSeconds / backgroundSeconds);
  let last = -Infinity;
  let hops = 0;

  const hear = (samples: Float64Array, end: number, count: number): number | null => {
    if (count % hop !== 0 || end < windowSize) return null;
    for (let index = 0; index < windowSize; index++) input[index] = (samples[end - windowSize + index] ?? 0) * (window[index] ?? 0);
    fft.realTransform(output, input);
    let novelty = 0;
    hops++;
    const step = Math.max(share, 1 / hops);
    const resting = count - last < restSeconds * rateHertz;
    for (let bin = 1; bin < bins; bin++) {
      const power = (output[2 * bin] ?? 0) ** 2 + (output[2 * bin + 1] ?? 0) ** 2;
      const usual = background[bin] ?? 0;
      novelty += Math.max(0, Math.log((power + quietPower) / (usual + quietPower)) - riseAtLeast);
      background[bin] = resting ? Math.max(power, usual) : usual + step * (power - usual);
    }
    if (hops === 1 || resting || novelty < (hops < hopsToKnow ? noveltyAtFirst : noveltyAtLeast)) return null;
    last = count;
    for (let bin = 0; bin < bins; bin++)
      background[bin] = Math.max(background[bin] ?? 0, (output[2 * bin] ?? 0) ** 2 + (output[2 * bin + 1] ?? 0) ** 2);
    return count - Math.round(0.4 * windowSize);
  };

  const reset = () => {
    background.fill(0);
    last = -Infinity;
    hops = 0;
  };
  return { hear, reset };
};
