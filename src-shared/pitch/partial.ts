import type { Spectrum } from './spectrum.ts';

/** One partial as measured at the middle of a stretch. */
export type Partial = {
  /** Whether it was found; else the rest means nothing. */
  heard: boolean;
  /** Its weight in the last fit. */
  weight: number;
  hertz: number;
  /** Change of the frequency, in hertz per second. */
  driftHertzPerSecond: number;
  /** Rate of decay of the amplitude, in 1/s. */
  decayPerSecond: number;
  /** Squared magnitude under the window, in the spectrum's units. */
  power: number;
  /** Power over noise, per bin. */
  ratio: number;
  /** Power per bin, in the spectrum's units, of the noise beside it, and of all in its main lobe that is not this partial. */
  floor: number;
  rest: number;
  /** What its neighbours leak to it, and what of `rest` that explains. */
  leak: number;
  restByLeak: number;
  /** By how much another string that may ring in its main lobe pulls at its frequency. */
  pullHertz: number;
  sigmaHertz: number;
  sigmaDriftHertzPerSecond: number;
};

export const emptyPartial = (): Partial => ({
  heard: false,
  weight: 0,
  hertz: 0,
  driftHertzPerSecond: 0,
  decayPerSecond: 0,
  power: 0,
  ratio: 0,
  floor: 0,
  rest: 0,
  leak: 0,
  restByLeak: 0,
  pullHertz: 0,
  sigmaHertz: Infinity,
  sigmaDriftHertzPerSecond: Infinity,
});

/** Error of the frequency in units of √(noise/power)/length, and of the drift in √(noise/power)/length²: measured with the estimator below on noise. */
const frequencyFactor = 0.55;
const driftFactor = 4.8;
/**
 * A partial that dies away is heard best where the stretch begins, so that its frequency in the middle errs more: where decay times length
 * reaches this, by √2 (measured like the factors).
 */
const decayDoubling = 2.5;
/** … but what dies away faster than this, in one over the length, has been stopped. */
const dyingAtMost = 2;
/** So much of the unexplained power that a neighbour leaks counts as noise for the drift (measured with two sinusoids 3 to 32 bins apart). */
const leakInDrift = 0.1;
/** … and of what it leaks, for the frequency (measured with combs of partials). */
const leakInFrequency = 3;

/**
 * Measures the partial near `guessHertz`: s = exp(α0 + α1·t + α2·t²) satisfies ∫s·φ′ = −∫(α1 + 2·α2·t)·s·φ for any window φ that
 * vanishes at its ends, so each bin near the partial is one linear equation in α1 and α2; least squares over the bins of the main lobe.
 * M. Betser, "Sinusoidal polynomial parameter estimation using the distribution derivative", IEEE Trans. Signal Processing 57, 2009.
 * Writes into `into`; false where the guess lies outside the spectrum or nothing stands above the noise.
 */
export const measurePartial = (spectrum: Spectrum, guessHertz: number, into: Partial): boolean => {
  const { plain, ramped, sloped, power, floor, hertzPerBin, seconds, bins } = spectrum;
  const reach = 1.5 / seconds;
  const from = Math.ceil((guessHertz - reach) / hertzPerBin);
  const to = Math.floor((guessHertz + reach) / hertzPerBin);
  if (from < 1 || to >= bins) return false;

  let ss = 0;
  let tt = 0;
  let stReal = 0;
  let stImaginary = 0;
  let syReal = 0;
  let syImaginary = 0;
  let tyReal = 0;
  let tyImaginary = 0;
  let yy = 0;
  let peak = 0;
  for (let bin = from; bin <= to; bin++) {
    const sReal = plain[2 * bin] ?? 0;
    const sImaginary = plain[2 * bin + 1] ?? 0;
    const tReal = ramped[2 * bin] ?? 0;
    const tImaginary = ramped[2 * bin + 1] ?? 0;
    const offset = 2 * Math.PI * (bin * hertzPerBin - guessHertz);
    const yReal = -(sloped[2 * bin] ?? 0) - offset * sImaginary;
    const yImaginary = -(sloped[2 * bin + 1] ?? 0) + offset * sReal;
    ss += sReal * sReal + sImaginary * sImaginary;
    tt += tReal * tReal + tImaginary * tImaginary;
    yy += yReal * yReal + yImaginary * yImaginary;
    stReal += sReal * tReal + sImaginary * tImaginary;
    stImaginary += sReal * tImaginary - sImaginary * tReal;
    syReal += sReal * yReal + sImaginary * yImaginary;
    syImaginary += sReal * yImaginary - sImaginary * yReal;
    tyReal += tReal * yReal + tImaginary * yImaginary;
    tyImaginary += tReal * yImaginary - tImaginary * yReal;
    peak = Math.max(peak, power[bin] ?? 0);
  }
  const determinant = ss * tt - stReal * stReal - stImaginary * stImaginary;
  if (!(determinant > 1e-12 * ss * tt)) return false;
  const betaReal = (tt * syReal - (stReal * tyReal - stImaginary * tyImaginary)) / determinant;
  const betaImaginary = (tt * syImaginary - (stReal * tyImaginary + stImaginary * tyReal)) / determinant;
  const gammaReal = (ss * tyReal - (stReal * syReal + stImaginary * syImaginary)) / determinant;
  const gammaImaginary = (ss * tyImaginary - (stReal * syImaginary - stImaginary * syReal)) / determinant;

  const noise = floor[Math.min(bins - 1, Math.max(0, Math.round(guessHertz / hertzPerBin)))] ?? 0;
  // What the two unknowns leave unexplained: noise, or a second sound inside the main lobe.
  const rest = Math.max(0, yy - (betaReal * syReal + betaImaginary * syImaginary + gammaReal * tyReal + gammaImaginary * tyImaginary));
  const lobe = (2 * Math.PI) / seconds;
  const restPower = rest / (Math.max(1, to - from - 1) * lobe * lobe);
  into.hertz = guessHertz + betaImaginary / (2 * Math.PI);
  into.decayPerSecond = -betaReal;
  into.driftHertzPerSecond = gammaImaginary / (2 * Math.PI) / (seconds / 2);
  into.power = peak;
  into.ratio = peak / noise;
  into.floor = noise;
  into.rest = restPower;
  into.leak = into.restByLeak = 0;
  into.pullHertz = 0;
  setErrors(into, seconds);
  return peak > 4 * noise;
};

/** The errors that follow from all that is known of what disturbs the partial; `seconds`: the length of the stretch. */
export const setErrors = (partial: Partial, seconds: number): void => {
  const { power, floor, rest, leak, restByLeak, pullHertz, decayPerSecond } = partial;
  const noise = Math.max(floor, rest - restByLeak);
  const scale = 1 / (seconds * seconds * (power + 1e-30));
  const dying = 1 + (Math.min(dyingAtMost, Math.abs(decayPerSecond) * seconds) / decayDoubling) ** 2;
  partial.sigmaHertz = Math.sqrt(frequencyFactor ** 2 * scale * dying * (noise + leakInFrequency * leak) + pullHertz ** 2);
  const pull = pullHertz / frequencyFactor;
  partial.sigmaDriftHertzPerSecond = (driftFactor / seconds) * Math.sqrt(scale * (noise + leakInDrift * restByLeak) + pull ** 2);
};

/**
 * Adds to a partial's error what a line of so much power, `apartHertz` beside it, may do to it: of two sinusoids in one main lobe the
 * weaker pulls the stronger towards it by their distance times the ratio of their amplitudes, and the stronger is what is measured.
 */
export const addPull = (partial: Partial, apartHertz: number, power: number, seconds: number): void => {
  partial.pullHertz = Math.hypot(partial.pullHertz, apartHertz * Math.min(1, Math.sqrt(power / (partial.power + 1e-30))));
  setErrors(partial, seconds);
};

/**
 * Largest power that a partial of power 1 leaks through the side lobes of the Hann window to a place `bins` (over the length of the
 * stretch) away: (sinc(x)/(1−x²))² without its zeros (F. Harris, Proc. IEEE 66, 1978). 1 inside the main lobe.
 */
export const hannLeak = (bins: number): number => (bins < 1.5 ? 1 : 1 / (Math.PI * bins * (bins * bins - 1)) ** 2);

/** A partial that dies away does not begin and end alike under the window, which raises its side lobes (in power) by so much. */
const swell = ({ decayPerSecond }: Partial, seconds: number): number => Math.cosh(Math.min(4, decayPerSecond * seconds));

/**
 * Takes down what a neighbour leaks to a partial, for the next `setErrors`. An equation of the estimator sees it x times larger, because
 * the leak turns x times faster than its window; but from x = 3 on the frequency hardly follows it (measured with two sinusoids).
 */
export const addLeakage = (partial: Partial, from: Partial, seconds: number): void => {
  const distance = Math.abs(partial.hertz - from.hertz) * seconds;
  if (distance < 1.5) return;
  const leak = from.power * swell(from, seconds) * hannLeak(distance);
  partial.leak += leak;
  partial.restByLeak += leak * distance * distance;
};

/** The floor found between partials where there is no noise, against the mean of their side lobes half-way (measured with combs of 31 to 330 Hz: 12, within a factor of 2 mostly). */
const floorOverLobes = 15;

/**
 * Takes from a partial's floor what is no noise: between the partials of a low string, or in a very quiet room, a low percentile of the
 * spectrum is their own side lobes. `spacingHertz`: how far apart the partials are.
 */
export const clearFloor = (partial: Partial, all: readonly Partial[], spacingHertz: number, seconds: number): void => {
  let lobes = 0;
  for (const other of all) {
    if (!other.heard) continue;
    const mean = (other.power * swell(other, seconds)) / 4;
    const apart = partial.hertz - other.hertz;
    lobes += mean * (hannLeak(Math.abs(apart - spacingHertz / 2) * seconds) + hannLeak(Math.abs(apart + spacingHertz / 2) * seconds));
  }
  const excess = (partial.floor / (floorOverLobes * lobes)) ** 2;
  if (Number.isFinite(excess)) partial.floor *= excess / (1 + excess);
};
