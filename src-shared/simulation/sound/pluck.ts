import { randomness } from './random.ts';

/** A second plane of vibration of the same string, `splitCents` away from the first, with `balance` (0…1) times its amplitude. */
export type Polarisation = { splitCents: number; balance: number; decaySeconds?: number };

export type Pluck = {
  /** First partial where the string comes to rest, peg untouched. */
  hertz: number;
  sampleRateHertz: number;
  /** Length of the whole clip. */
  seconds: number;
  seed: number;
  /** When the string is plucked; silence before. Default 0. */
  pluckedAtSeconds?: number;
  /** Stiffness coefficient B. Default 1e-4 (a plain nylon string). */
  inharmonicity?: number;
  /** Time in which the first partial falls by 60 dB; higher partials are faster. Default 3. */
  decaySeconds?: number;
  /** Largest absolute sample value. Default 0.5. */
  amplitude?: number;
  /** How sharp the string starts, and the time constant with which it falls to rest. Default 0 and 0.15. */
  glideCents?: number;
  glideSeconds?: number;
  /** Where it is plucked, as a share of its length, 0…1. Default 0.2. */
  pluckPosition?: number;
  /** Noise of finger or plectrum against the amplitude, 0…1. Default 0.1. */
  attackNoise?: number;
  polarisations?: readonly Polarisation[];
  /** How much weaker the first partial arrives, in decibels (small microphones). Default 0. */
  weakFundamentalDecibels?: number;
  /** What the peg adds to the pitch at a moment of the clip, in cents. See `turningPeg`. */
  pegCents?: (atSeconds: number) => number;
};

export type PluckedSound = {
  samples: Float32Array;
  sampleRateHertz: number;
  inharmonicity: number;
  /**
   * First partial of the string as it is at that moment, in hertz (with two polarisations: their mean, weighted by energy).
   * Before the pluck: where the string would rest.
   */
  truthHertz: (atSeconds: number) => number;
};

const partialsAtMost = 40;
const sixtyDecibels = Math.log(1000);
const ratioOf = (cents: number) => 2 ** (cents / 1200);

/** Frequency of partial n over the first, for a stiff string: n·√(1+Bn²)/√(1+B) (Fletcher, J. Acoust. Soc. Am. 36, 1964). */
export const stiffRatio = (partial: number, inharmonicity: number) =>
  partial * Math.sqrt((1 + inharmonicity * partial * partial) / (1 + inharmonicity));

/** Decay rate of partial n in 1/s: losses that grow with frequency. The coefficients are invented, of the order heard on nylon. */
const decayRate = (partial: number, decaySeconds: number) =>
  (sixtyDecibels / decaySeconds) * (1 + 0.12 * (partial - 1) + 0.012 * (partial - 1) ** 2);

/**
 * A plucked string with exact truth: stiff-string partials, each decaying at its own rate, and a noisy attack.
 * Spectrum sin(nπp)/n of an ideal pluck at share p of the length; phases and a body response of ±3 dB are drawn from the seed.
 * `pluckSound({ hertz: 261.63, sampleRateHertz: 48000, seconds: 2, seed: 1 }).truthHertz(1)` → 261.63.
 * Throws RangeError for a pitch, rate, length or decay at or below 0, or a pitch above a third of the rate.
 */
export const pluckSound = (pluck: Pluck): PluckedSound => {
  const { hertz, sampleRateHertz, seconds, seed } = pluck;
  const { pluckedAtSeconds = 0, inharmonicity = 1e-4, decaySeconds = 3, amplitude = 0.5, glideCents = 0, glideSeconds = 0.15 } = pluck;
  const { pluckPosition = 0.2, attackNoise = 0.1, polarisations = [], weakFundamentalDecibels = 0, pegCents = () => 0 } = pluck;
  for (const [name, value] of Object.entries({ hertz, sampleRateHertz, seconds, decaySeconds, glideSeconds }))
    if (!(value > 0)) throw new RangeError(`${name} must be above 0; got ${value}`);
  if (hertz > sampleRateHertz / 3) throw new RangeError(`hertz must be below a third of ${sampleRateHertz}; got ${hertz}`);

  const random = randomness(seed);
  const planes = [{ splitCents: 0, balance: 1, decaySeconds }, ...polarisations.map((plane) => ({ decaySeconds, ...plane }))];
  const centsAt = (atSeconds: number) => {
    const since = atSeconds - pluckedAtSeconds;
    return pegCents(atSeconds) + (since < 0 ? 0 : glideCents * Math.exp(-since / glideSeconds));
  };
  const truthHertz = (atSeconds: number) => {
    const since = Math.max(0, atSeconds - pluckedAtSeconds);
    const weights = planes.map((plane) => plane.balance ** 2 * Math.exp(-2 * decayRate(1, plane.decaySeconds) * since));
    const total = weights.reduce((sum, weight) => sum + weight, 0);
    const split = planes.reduce((sum, plane, index) => sum + plane.splitCents * (weights[index] ?? 0), 0) / total;
    return hertz * ratioOf(centsAt(atSeconds) + split);
  };

  const samples = new Float32Array(Math.round(seconds * sampleRateHertz));
  const first = Math.min(samples.length, Math.round(pluckedAtSeconds * sampleRateHertz));
  // Phase of the first partial, in radians since the pluck.
  const phases = new Float64Array(samples.length - first);
  let phase = 0;
  for (let index = 0; index < phases.length; index++) {
    phases[index] = phase;
    phase += (2 * Math.PI * hertz * ratioOf(centsAt((first + index) / sampleRateHertz))) / sampleRateHertz;
  }

  for (let partial = 1; partial <= partialsAtMost; partial++) {
    const ratio = stiffRatio(partial, inharmonicity);
    const response = 10 ** ((random.uniform() * 6 - 3) / 20) * (partial === 1 ? 10 ** (-weakFundamentalDecibels / 20) : 1);
    const level = (Math.sin(partial * Math.PI * pluckPosition) / partial) * response;
    for (const plane of planes) {
      const offset = 2 * Math.PI * random.uniform();
      const factor = ratio * ratioOf(plane.splitCents);
      if (factor * hertz * ratioOf(glideCents) > 0.45 * sampleRateHertz) continue;
      const decay = Math.exp(-decayRate(partial, plane.decaySeconds) / sampleRateHertz);
      let height = level * plane.balance;
      for (let index = 0; index < phases.length && Math.abs(height) > 1e-8; index++, height *= decay)
        samples[first + index] = (samples[first + index] ?? 0) + height * Math.sin(factor * (phases[index] ?? 0) + offset);
    }
  }

  const largest = samples.reduce((peak, value) => Math.max(peak, Math.abs(value)), 1e-12);
  const riseSamples = 0.0015 * sampleRateHertz;
  const burstSamples = 0.006 * sampleRateHertz;
  for (let index = 0; index < phases.length; index++) {
    const rise = Math.min(1, index / riseSamples);
    const burst = index > 12 * burstSamples ? 0 : attackNoise * random.normal() * Math.exp(-index / burstSamples);
    samples[first + index] = amplitude * rise * ((samples[first + index] ?? 0) / largest + burst);
  }
  return { samples, sampleRateHertz, inharmonicity, truthHertz };
};
