// The pitch of a recorded or rendered pluck, found without the tracker: slowly, with long windows that also know what comes later, by other means
// (each partial turned down to 0 Hz, its phase followed). What it cannot know: which of two sounds in a recording is meant.
import { sampleRateHertz } from './clip.ts';

const blockSamples = 64;
const blockRateHertz = sampleRateHertz / blockSamples;
const partialsAtMost = 8;
const highestHertz = 4_500;
const reachCents = 60;
const windowBlocks = 224;
const stepBlocks = 8;
/** The long window that the partials and their stiffness are taken from. */
const longBlocks = 750;
/** Partials weaker than this share of the strongest (in power) are left out. */
const weakestShare = 1e-4;

type Slow = { real: Float64Array; imaginary: Float64Array };

/** The sound turned down by `hertz` and averaged, block by block under raised cosines that overlap by half: nothing else is folded onto it. */
const turnedDown = (samples: Float32Array, hertz: number): Slow => {
  const blocks = Math.floor(samples.length / blockSamples);
  const slow = { real: new Float64Array(blocks), imaginary: new Float64Array(blocks) };
  for (let index = 0; index < blocks * blockSamples; index++) {
    const angle = 2 * Math.PI * ((hertz * index) / sampleRateHertz);
    const block = Math.floor(index / blockSamples);
    const later = Math.sin((0.5 * Math.PI * (index - block * blockSamples)) / blockSamples) ** 2;
    for (const [at, weight] of [
      [block, 1 - later],
      [block + 1, later],
    ] as const) {
      slow.real[at]! += weight * samples[index]! * Math.cos(angle);
      slow.imaginary[at]! -= weight * samples[index]! * Math.sin(angle);
    }
  }
  return slow;
};

/** Hann-windowed content at `hertz`, `length` blocks around block `centre`. */
const contentAt = ({ real, imaginary }: Slow, centre: number, length: number, hertz: number) => {
  let sumReal = 0;
  let sumImaginary = 0;
  for (let index = 0; index < length; index++) {
    const block = centre - length / 2 + index;
    const weight = 1 - Math.cos((2 * Math.PI * (index + 0.5)) / length);
    const angle = (-2 * Math.PI * hertz * block) / blockRateHertz;
    const [cosine, sine] = [Math.cos(angle), Math.sin(angle)];
    const [inReal, inImaginary] = [real[block] ?? 0, imaginary[block] ?? 0];
    sumReal += weight * (inReal * cosine - inImaginary * sine);
    sumImaginary += weight * (inReal * sine + inImaginary * cosine);
  }
  return { real: sumReal, imaginary: sumImaginary, power: sumReal ** 2 + sumImaginary ** 2 };
};

/** How far the strongest content near 0 Hz lies from it, and how strong it is. */
const peakNear = (slow: Slow, centre: number, reachHertz: number) => {
  let best = { hertz: 0, power: 0 };
  for (let hertz = -reachHertz; hertz <= reachHertz; hertz += blockRateHertz / longBlocks / 4) {
    const { power } = contentAt(slow, centre, longBlocks, hertz);
    if (power > best.power) best = { hertz, power };
  }
  return best;
};

/** Frequency of a partial around a block, by the turn of its phase over two steps. */
const frequencyAt = (slow: Slow, centre: number, offsetHertz: number, length = windowBlocks) => {
  const before = contentAt(slow, centre - stepBlocks, length, offsetHertz);
  const after = contentAt(slow, centre + stepBlocks, length, offsetHertz);
  const turn = Math.atan2(
    after.imaginary * before.real - after.real * before.imaginary,
    after.real * before.real + after.imaginary * before.imaginary,
  );
  return { hertz: offsetHertz + (turn * blockRateHertz) / (2 * Math.PI * 2 * stepBlocks), power: Math.min(before.power, after.power) };
};

/**
 * B from (f_n/n)² = f0²·(1 + B·n²): the middle slope over all pairs of partials (P. Sen, J. Am. Statist. Assoc. 63, 1968), because the body
 * pulls single partials of a real instrument off by several cents.
 */
const stiffnessOf = (partials: readonly { n: number; hertz: number }[]) => {
  const slopes = partials.flatMap((one) =>
    partials.flatMap((other) => {
      if (other.n <= one.n) return [];
      const growth = ((other.hertz * one.n) / (other.n * one.hertz)) ** 2 - 1;
      return [growth / (other.n ** 2 - one.n ** 2 * (1 + growth))];
    }),
  );
  const middle = slopes.toSorted((left, right) => left - right)[Math.floor(slopes.length / 2)] ?? 0;
  return Math.max(0, Math.min(2e-3, middle));
};

/**
 * The first partial of a pluck over time, as a function of the moment in the clip; null where nothing like the nominal pitch is there.
 * Partials count by power · n², as in the maximum-likelihood period of a harmonic sound.
 */
export const pitchOffline = (
  samples: Float32Array,
  { pluckedAtSeconds, nominalHertz }: { pluckedAtSeconds: number; nominalHertz: number },
): ((atSeconds: number) => number) | null => {
  const pluckedAt = Math.ceil(pluckedAtSeconds * blockRateHertz);
  const centre = pluckedAt + Math.round(0.2 * blockRateHertz) + longBlocks / 2;
  const all = [];
  for (let n = 1; n <= partialsAtMost && n * nominalHertz < highestHertz; n++) {
    const slow = turnedDown(samples, n * nominalHertz);
    const peak = peakNear(slow, centre, n * nominalHertz * (2 ** (reachCents / 1200) - 1));
    all.push({
      n,
      slow,
      offsetHertz: peak.hertz,
      hertz: n * nominalHertz + frequencyAt(slow, centre, peak.hertz, longBlocks).hertz,
      power: peak.power,
    });
  }
  const strongest = Math.max(...all.map(({ power }) => power));
  const partials = all.filter(({ power }) => power > weakestShare * strongest);
  if (strongest === 0) return null;
  const inharmonicity = stiffnessOf(partials);
  const points: number[] = [];
  const earliest = pluckedAt + 2 * stepBlocks + windowBlocks / 2;
  const latest = Math.floor(samples.length / blockSamples) - stepBlocks - windowBlocks / 2;
  for (let at = earliest; at <= latest; at += stepBlocks) {
    let sum = 0;
    let weights = 0;
    for (const { n, slow, offsetHertz } of partials) {
      const { hertz, power } = frequencyAt(slow, at, offsetHertz);
      const ratio = n * Math.sqrt((1 + inharmonicity * n * n) / (1 + inharmonicity));
      sum += (power * n * n * (n * nominalHertz + hertz)) / ratio;
      weights += power * n * n;
    }
    points.push(sum / weights);
  }
  return (atSeconds) => {
    const place = Math.max(0, Math.min(points.length - 1, (atSeconds * blockRateHertz - earliest) / stepBlocks));
    const [left = 0, right = left] = [points[Math.floor(place)], points[Math.ceil(place)]];
    return left + (right - left) * (place - Math.floor(place));
  };
};
