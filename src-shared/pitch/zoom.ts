import type { Spectrum } from './spectrum.ts';

/** Samples averaged into one, once what is looked at stands still. */
const block = 32;
/** Bins on each side, over the length of the stretch; a partial is measured within 1.5. */
const reach = 2;

/**
 * Measures a few bins of a spectrum anew, around one frequency: the sound is turned back by that frequency, averaged in blocks, and only
 * what stands still is transformed. Some twenty times cheaper than the whole, and exact where all else has been taken away before.
 * Writes into `spectrum`, whose floor and other bins stay as they were.
 */
export const zoomInto = (spectrum: Spectrum, samples: Float64Array, length: number, hertz: number, rateHertz: number): void => {
  const blocks = Math.floor(length / block);
  const reals = new Float64Array(blocks);
  const imaginaries = new Float64Array(blocks);
  const turn = (2 * Math.PI * hertz) / rateHertz;
  const cosine = Math.cos(turn);
  const sine = Math.sin(turn);
  let phaseReal = 1;
  let phaseImaginary = 0;
  for (let at = 0; at < blocks; at++) {
    let real = 0;
    let imaginary = 0;
    for (let index = at * block; index < (at + 1) * block; index++) {
      const value = samples[index] ?? 0;
      real += value * phaseReal;
      imaginary -= value * phaseImaginary;
      const next = phaseReal * cosine - phaseImaginary * sine;
      phaseImaginary = phaseReal * sine + phaseImaginary * cosine;
      phaseReal = next;
    }
    reals[at] = real;
    imaginaries[at] = imaginary;
  }

  const { plain, ramped, sloped, power, hertzPerBin, seconds, bins } = spectrum;
  const from = Math.max(0, Math.ceil((hertz - reach / seconds) / hertzPerBin));
  const to = Math.min(bins - 1, Math.floor((hertz + reach / seconds) / hertzPerBin));
  const width = (2 * Math.PI) / blocks;
  for (let bin = from; bin <= to; bin++) {
    const step = (2 * Math.PI * (bin * hertzPerBin - hertz) * block) / rateHertz;
    let plainReal = 0;
    let plainImaginary = 0;
    let rampedReal = 0;
    let rampedImaginary = 0;
    let slopedReal = 0;
    let slopedImaginary = 0;
    for (let at = 0; at < blocks; at++) {
      const angle = -step * (at + 0.5);
      const real = (reals[at] ?? 0) * Math.cos(angle) - (imaginaries[at] ?? 0) * Math.sin(angle);
      const imaginary = (reals[at] ?? 0) * Math.sin(angle) + (imaginaries[at] ?? 0) * Math.cos(angle);
      const window = 0.5 - 0.5 * Math.cos(width * (at + 0.5));
      const slope = (Math.PI / seconds) * Math.sin(width * (at + 0.5));
      const ramp = window * ((2 * at + 1) / blocks - 1);
      plainReal += window * real;
      plainImaginary += window * imaginary;
      rampedReal += ramp * real;
      rampedImaginary += ramp * imaginary;
      slopedReal += slope * real;
      slopedImaginary += slope * imaginary;
    }
    plain[2 * bin] = plainReal;
    plain[2 * bin + 1] = plainImaginary;
    ramped[2 * bin] = rampedReal;
    ramped[2 * bin + 1] = rampedImaginary;
    sloped[2 * bin] = slopedReal;
    sloped[2 * bin + 1] = slopedImaginary;
    power[bin] = plainReal * plainReal + plainImaginary * plainImaginary;
  }
};
