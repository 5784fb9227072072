import type { Partial } from './partial.ts';

export type Amplitude = { real: number; imaginary: number };
/** A damped sinusoid: complex amplitude at an origin agreed elsewhere, angle per sample, decay in 1/s. */
export type Line = Amplitude & { radians: number; decay: number; power: number };

/** The line of a measured partial, its amplitude still unknown. A line does not grow. */
export const lineOf = (partial: Partial, rateHertz: number): Line => ({
  real: 0,
  imaginary: 0,
  radians: (2 * Math.PI * partial.hertz) / rateHertz,
  decay: Math.max(0, partial.decayPerSecond),
  power: partial.power,
});

/** Writes into `into` what of a line with amplitude 1 at sample `origin` stands in `samples[from … from + length)`, under a Hann window. */
export const projectOn = (
  line: Line,
  samples: Float64Array,
  from: number,
  length: number,
  origin: number,
  rateHertz: number,
  into: Amplitude,
): void => {
  const shrink = Math.exp(-line.decay / rateHertz);
  const cosine = Math.cos(line.radians);
  const sine = Math.sin(line.radians);
  let phaseReal = Math.cos(line.radians * (from - origin));
  let phaseImaginary = Math.sin(line.radians * (from - origin));
  let height = Math.exp((-line.decay * (from - origin)) / rateHertz);
  let real = 0;
  let imaginary = 0;
  let energy = 0;
  const turn = (2 * Math.PI) / length;
  const turnCosine = Math.cos(turn);
  const turnSine = Math.sin(turn);
  let windowReal = Math.cos(turn / 2);
  let windowImaginary = Math.sin(turn / 2);
  for (let index = from; index < from + length; index++) {
    const weight = (0.5 - 0.5 * windowReal) * height;
    const value = (samples[index] ?? 0) * weight;
    real += value * phaseReal;
    imaginary -= value * phaseImaginary;
    energy += weight * height;
    const nextReal = phaseReal * cosine - phaseImaginary * sine;
    phaseImaginary = phaseReal * sine + phaseImaginary * cosine;
    phaseReal = nextReal;
    const nextWindow = windowReal * turnCosine - windowImaginary * turnSine;
    windowImaginary = windowReal * turnSine + windowImaginary * turnCosine;
    windowReal = nextWindow;
    height *= shrink;
  }
  into.real = (2 * real) / energy;
  into.imaginary = (2 * imaginary) / energy;
};

/** Adds `sign` times the line to the first `length` samples. */
export const mixLine = (line: Line, samples: Float64Array, sign: 1 | -1, length: number, origin: number, rateHertz: number): void => {
  const factor = Math.exp(-line.decay / rateHertz);
  const stepReal = factor * Math.cos(line.radians);
  const stepImaginary = factor * Math.sin(line.radians);
  const start = Math.exp((line.decay * origin) / rateHertz) * sign;
  const angle = -line.radians * origin;
  let real = start * (line.real * Math.cos(angle) - line.imaginary * Math.sin(angle));
  let imaginary = start * (line.real * Math.sin(angle) + line.imaginary * Math.cos(angle));
  for (let index = 0; index < length; index++) {
    samples[index] = (samples[index] ?? 0) + real;
    const next = real * stepReal - imaginary * stepImaginary;
    imaginary = real * stepImaginary + imaginary * stepReal;
    real = next;
  }
};
