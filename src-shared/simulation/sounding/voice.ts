import { stiffRatio } from '../sound/index.ts';
import { seededRandom } from '../strings/index.ts';

/** How one string sounds, whatever its pitch. All ASSUMED. */
export type Timbre = {
  /** Stiffness coefficient B. */
  readonly inharmonicity: number;
  /** Time in which the first partial falls by 60 dB; higher partials are faster. */
  readonly decaySeconds: number;
  /** How sharp a pluck starts; it dies away within about a tenth of a second. */
  readonly glideCents: number;
  /** Where it is plucked, as a share of its length, 0…1. */
  readonly pluckPosition: number;
};

/** One pluck as it rings on. */
export type Voice = {
  /** Adds samples `from` to `until` of a block, with the string at `hertz` throughout. */
  readonly addTo: (block: Float32Array, from: number, until: number, hertz: number) => void;
  /** A finger stops the string. */
  readonly damp: () => void;
  readonly isSilent: () => boolean;
};

const partialsAtMost = 30;
const sixtyDecibels = Math.log(1000);
const glideSeconds = 0.09;
const riseSeconds = 0.0015;
const burst = { level: 0.08, seconds: 0.006, forSeconds: 0.05 };
const dampedSeconds = 0.06;
const inaudible = 1e-5;

/**
 * A pluck of peak about `amplitude`: stiff-string partials, each a rotating phasor that decays at its own rate, so that the pitch may
 * change at any time without a click. Spectrum sin(nπp)/n of an ideal pluck; phases from the seed.
 * `pluckedVoice(timbre, { amplitude: 0.2, sampleRateHertz: 48000, seed: 1 }).addTo(block, 0, 128, 440)`.
 */
export function pluckedVoice(
  { inharmonicity, decaySeconds, glideCents, pluckPosition }: Timbre,
  { amplitude, sampleRateHertz, seed }: { readonly amplitude: number; readonly sampleRateHertz: number; readonly seed: number },
): Voice {
  const random = seededRandom(seed);
  const levels = Array.from({ length: partialsAtMost }, (_, index) => Math.sin((index + 1) * Math.PI * pluckPosition) / (index + 1));
  const whole = levels.reduce((sum, level) => sum + Math.abs(level), 0);
  const real = new Float64Array(partialsAtMost);
  const imaginary = new Float64Array(partialsAtMost);
  for (const [index, level] of levels.entries()) {
    const phase = 2 * Math.PI * random.between(0, 1);
    const height = (1.6 * amplitude * level) / whole;
    real[index] = height * Math.cos(phase);
    imaginary[index] = height * Math.sin(phase);
  }
  let age = 0;
  let isDamped = false;
  let loudest = amplitude;
  let sum = new Float64Array(0);

  const addPartial = (index: number, from: number, until: number, hertz: number) => {
    const radians = (2 * Math.PI * hertz * stiffRatio(index + 1, inharmonicity)) / sampleRateHertz;
    if (radians > 0.9 * Math.PI) return 0;
    const seconds = isDamped ? dampedSeconds : decaySeconds / (1 + 0.13 * index + 0.01 * index * index);
    const decay = Math.exp(-sixtyDecibels / seconds / sampleRateHertz);
    const [cosine, sine] = [decay * Math.cos(radians), decay * Math.sin(radians)];
    let a = real[index] ?? 0;
    let b = imaginary[index] ?? 0;
    for (let at = from; at < until; at += 1) {
      sum[at - from] = (sum[at - from] ?? 0) + b;
      const turned = a * cosine - b * sine;
      b = a * sine + b * cosine;
      a = turned;
    }
    real[index] = a;
    imaginary[index] = b;
    return Math.abs(a) + Math.abs(b);
  };

  return {
    addTo: (block, from, until, hertz) => {
      const bent = hertz * 2 ** ((glideCents * Math.exp(-age / sampleRateHertz / glideSeconds)) / 1200);
      if (sum.length < until - from) sum = new Float64Array(until - from);
      sum.fill(0);
      let height = 0;
      for (let index = 0; index < partialsAtMost; index += 1)
        if (Math.abs(real[index] ?? 0) + Math.abs(imaginary[index] ?? 0) > inaudible / 10) height += addPartial(index, from, until, bent);
      const risen = riseSeconds * sampleRateHertz;
      for (let at = from; at < until; at += 1)
        block[at] = (block[at] ?? 0) + (sum[at - from] ?? 0) * Math.min(1, (age + at - from) / risen);
      if (age < burst.forSeconds * sampleRateHertz && !isDamped)
        for (let at = from; at < until; at += 1) {
          const since = (age + at - from) / sampleRateHertz;
          block[at] = (block[at] ?? 0) + random.normal(amplitude * burst.level) * Math.exp(-since / burst.seconds);
        }
      age += until - from;
      loudest = height;
    },
    damp: () => {
      isDamped = true;
    },
    isSilent: () => loudest < inaudible,
  };
}
