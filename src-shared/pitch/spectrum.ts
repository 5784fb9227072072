import FFT from 'fft.js';
import { smallest } from './select.ts';

/**
 * Three transforms of one stretch of samples, all with the same zero padding: under a Hann window, under the window times time,
 * and under the window's derivative. Together they give the frequency, decay and drift of every partial (see partial.ts).
 * Interleaved real and imaginary parts; the arrays are reused by the next call.
 */
export type Spectrum = {
  bins: number;
  hertzPerBin: number;
  /** Length of the stretch, in seconds. */
  seconds: number;
  plain: Float64Array;
  ramped: Float64Array;
  sloped: Float64Array;
  /** Squared magnitude of `plain`, per bin. */
  power: Float64Array;
  /** Mean power of the noise alone, per bin. */
  floor: Float64Array;
};

/**
 * A percentile of the power in a neighbourhood that the partials leave free, and the factor from there to the mean of the noise, whose
 * power is exponentially distributed. Partials `spacingHertz` apart cover four bins of the window each.
 */
const freeShare = (spacingHertz: number, seconds: number) => Math.min(0.4, Math.max(0.1, 0.5 * (1 - 4 / (spacingHertz * seconds))));

const neighbourhoodHertz = 400;
/** Nothing is looked for above this: the low-pass of the decimation falls from here on. */
const highestHertz = 4_900;

/** A spectrometer for stretches of up to `size` samples (a power of two). */
export const createSpectrometer = (size: number, sampleRateHertz: number) => {
  const fft = new FFT(size);
  const pair = new Float64Array(2 * size);
  const pairOut = new Float64Array(2 * size);
  const single = new Float64Array(size);
  const singleOut = new Float64Array(2 * size);
  const scratch = new Float64Array(size);
  const bins = Math.min(size / 2, Math.ceil((highestHertz * size) / sampleRateHertz));
  const spectrum: Spectrum = {
    bins,
    hertzPerBin: sampleRateHertz / size,
    seconds: 0,
    plain: new Float64Array(2 * bins),
    ramped: singleOut,
    sloped: new Float64Array(2 * bins),
    power: new Float64Array(bins),
    floor: new Float64Array(bins),
  };

  /** Noise floor: a low percentile of each neighbourhood, so that partials do not raise it. */
  const measureFloor = (length: number, share: number) => {
    const width = Math.min(bins, Math.max(24, Math.round(neighbourhoodHertz / spectrum.hertzPerBin), Math.round((16 * size) / length)));
    for (let from = 0; from < bins; from += width) {
      const to = Math.min(bins, from + width);
      const start = Math.max(0, to - width);
      for (let bin = start; bin < to; bin++) scratch[bin - start] = spectrum.power[bin] ?? 0;
      const level = smallest(scratch, to - start, Math.floor(share * (to - start))) / -Math.log(1 - share);
      spectrum.floor.fill(level + 1e-20, from, to);
    }
  };

  return (samples: Float64Array, start: number, length: number, spacingHertz = 100): Spectrum => {
    pair.fill(0);
    single.fill(0);
    // The window's cosine and sine by rotation: no call to either per sample.
    const turn = (2 * Math.PI) / length;
    const turnCosine = Math.cos(turn);
    const turnSine = Math.sin(turn);
    let cosine = Math.cos(turn / 2);
    let sine = Math.sin(turn / 2);
    const slope = 0.5 * turn * sampleRateHertz;
    for (let index = 0; index < length; index++) {
      const value = samples[start + index] ?? 0;
      const windowed = value * (0.5 - 0.5 * cosine);
      pair[2 * index] = windowed;
      pair[2 * index + 1] = value * slope * sine;
      single[index] = windowed * ((2 * index + 1) / length - 1);
      const next = cosine * turnCosine - sine * turnSine;
      sine = cosine * turnSine + sine * turnCosine;
      cosine = next;
    }
    fft.transform(pairOut, pair);
    fft.realTransform(singleOut, single);
    const { plain, sloped, power } = spectrum;
    for (let bin = 0; bin < bins; bin++) {
      const mirror = bin === 0 ? 0 : size - bin;
      const real = pairOut[2 * bin] ?? 0;
      const imaginary = pairOut[2 * bin + 1] ?? 0;
      const mirrorReal = pairOut[2 * mirror] ?? 0;
      const mirrorImaginary = pairOut[2 * mirror + 1] ?? 0;
      const plainReal = (real + mirrorReal) / 2;
      const plainImaginary = (imaginary - mirrorImaginary) / 2;
      plain[2 * bin] = plainReal;
      plain[2 * bin + 1] = plainImaginary;
      sloped[2 * bin] = (imaginary + mirrorImaginary) / 2;
      sloped[2 * bin + 1] = (mirrorReal - real) / 2;
      power[bin] = plainReal * plainReal + plainImaginary * plainImaginary;
    }
    spectrum.seconds = length / sampleRateHertz;
    measureFloor(length, freeShare(spacingHertz, spectrum.seconds));
    return spectrum;
  };
};
