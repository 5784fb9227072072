import FFT from 'fft.js';
import { smallest } from './select.ts';

/**
 * Three transforms of one stretch of samples, all with the same zero padding: under a Hann window, under the window times time,
 * and under the window's derivative. Together they give the frequency, decay and drift of every partial (see partial.ts).
 * Interleaved real and imaginary parts; the arrays are reused by the next call.
 */
export type Spectrum = Powers & {
  plain: Float64Array;
  ramped: Float64Array;
  sloped: Float64Array;
};

/** What of a spectrum its peaks are found by. */
export type Powers = {
  bins: number;
  hertzPerBin: number;
  /** Length of the stretch, in seconds. */
  seconds: number;
  /** Squared magnitude under a Hann window, per bin. */
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

/** The Hann window over a stretch, its slope per second and the window times time from −1 to 1; made anew only for another length. */
const createWindow = (size: number, sampleRateHertz: number) => {
  const hann = new Float64Array(size);
  const slope = new Float64Array(size);
  const ramp = new Float64Array(size);
  let made = 0;

  return (length: number) => {
    if (length === made) return { hann, slope, ramp };
    made = length;
    // Cosine and sine by rotation: no call to either per sample.
    const turn = (2 * Math.PI) / length;
    const turnCosine = Math.cos(turn);
    const turnSine = Math.sin(turn);
    let cosine = Math.cos(turn / 2);
    let sine = Math.sin(turn / 2);
    for (let index = 0; index < length; index++) {
      hann[index] = 0.5 - 0.5 * cosine;
      slope[index] = 0.5 * turn * sampleRateHertz * sine;
      ramp[index] = (0.5 - 0.5 * cosine) * ((2 * index + 1) / length - 1);
      const next = cosine * turnCosine - sine * turnSine;
      sine = cosine * turnSine + sine * turnCosine;
      cosine = next;
    }
    return { hann, slope, ramp };
  };
};

/**
 * A spectrometer for stretches of up to `size` samples (a power of two). `powersOf` costs a third of `spectrumOf`; both write into the same arrays.
 */
export const createSpectrometer = (size: number, sampleRateHertz: number) => {
  const half = size / 2;
  const fft = new FFT(half);
  const windowed = new Float64Array(size);
  const packed = new Float64Array(size);
  const scratch = new Float64Array(size);
  const windowOf = createWindow(size, sampleRateHertz);
  const bins = Math.min(half, Math.ceil((highestHertz * size) / sampleRateHertz));
  const cosines = Float64Array.from({ length: bins }, (_, bin) => Math.cos((2 * Math.PI * bin) / size));
  const sines = Float64Array.from({ length: bins }, (_, bin) => Math.sin((2 * Math.PI * bin) / size));
  const spectrum: Spectrum = {
    bins,
    hertzPerBin: sampleRateHertz / size,
    seconds: 0,
    plain: new Float64Array(2 * bins),
    ramped: new Float64Array(2 * bins),
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

  /**
   * Transforms the stretch under a window. Even samples as real and odd ones as imaginary parts make one transform of half the size, whose
   * mirrored bins tell the two apart (W. Press et al., Numerical Recipes, 3rd ed., §12.3).
   */
  const transform = (samples: Float64Array, start: number, length: number, window: Float64Array, into: Float64Array) => {
    for (let index = 0; index < length; index++) windowed[index] = (samples[start + index] ?? 0) * (window[index] ?? 0);
    windowed.fill(0, length);
    fft.transform(packed, windowed);
    for (let bin = 0; bin < bins; bin++) {
      const mirror = bin === 0 ? 0 : half - bin;
      const real = packed[2 * bin] ?? 0;
      const imaginary = packed[2 * bin + 1] ?? 0;
      const mirrorReal = packed[2 * mirror] ?? 0;
      const mirrorImaginary = packed[2 * mirror + 1] ?? 0;
      const oddReal = imaginary + mirrorImaginary;
      const oddImaginary = mirrorReal - real;
      const cosine = cosines[bin] ?? 0;
      const sine = sines[bin] ?? 0;
      into[2 * bin] = (real + mirrorReal + oddReal * cosine + oddImaginary * sine) / 2;
      into[2 * bin + 1] = (imaginary - mirrorImaginary + oddImaginary * cosine - oddReal * sine) / 2;
    }
  };

  const measurePower = () => {
    const { plain, power } = spectrum;
    for (let bin = 0; bin < bins; bin++) power[bin] = (plain[2 * bin] ?? 0) ** 2 + (plain[2 * bin + 1] ?? 0) ** 2;
  };

  const powersOf = (samples: Float64Array, start: number, length: number, spacingHertz = 100): Powers => {
    transform(samples, start, length, windowOf(length).hann, spectrum.plain);
    measurePower();
    spectrum.seconds = length / sampleRateHertz;
    measureFloor(length, freeShare(spacingHertz, spectrum.seconds));
    return spectrum;
  };

  const spectrumOf = (samples: Float64Array, start: number, length: number, spacingHertz?: number): Spectrum => {
    const { slope, ramp } = windowOf(length);
    transform(samples, start, length, ramp, spectrum.ramped);
    transform(samples, start, length, slope, spectrum.sloped);
    powersOf(samples, start, length, spacingHertz);
    return spectrum;
  };

  return { powersOf, spectrumOf };
};
