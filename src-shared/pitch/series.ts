import type { Partial } from './partial.ts';
import type { Strays } from './stray.ts';
import { centsApart, centsPerRatio, shifted, stiffRatio } from './string.ts';

/**
 * What is known of a string's stiffness coefficient B: a value, the error that it is weighed by, which allows for partials that stray as much as
 * they may, and the error that it has by what was seen of them.
 */
export type Stiffness = { inharmonicity: number; sigma: number; sigmaSeen: number };

/** Before anything is heard: B of small instruments' strings lies between about 1e-5 and 1e-3. */
export const unknownStiffness: Stiffness = { inharmonicity: 1.5e-4, sigma: 2.5e-4, sigmaSeen: 2.5e-4 };

/** A stiff string fitted to a stretch of sound; pitch and drift are those at its middle. */
export type Fit = {
  hertz: number;
  sigmaCents: number;
  /** That with partials that stray as much as they may, whatever was seen of it: by this a voice is told from a string. */
  sigmaAtMostCents: number;
  /** The part of `sigmaCents` that comes from B, which one stretch after the other shares. */
  sigmaByStiffnessCents: number;
  driftCentsPerSecond: number;
  sigmaDrift: number;
  stiffness: Stiffness;
  /** Whether B was found anew, because what was remembered does not fit: another string's. */
  isAnother: boolean;
  /** How much more the partials disagree than their errors allow: 1 = not at all. */
  inflation: number;
  /** Error that more listening does not take away: the partials' straying, averaged over them. */
  systematicCents: number;
  /** Partials that carried the fit. */
  partials: number;
  /** Sum of the power of those partials, in the spectrum's units. */
  power: number;
  /** Power of the strongest partial over the noise beside it. */
  ratio: number;
  decayPerSecond: number;
};

/** How far partials stray from the formula at least, in cents; how far they do is estimated from the sound (body and polarisations pull at them). */
export const leastStrayCents = 0.1;
/**
 * Where partials stray, B is that of the series which most of them keep, but the pitch counts them as a maximum-likelihood fit of a
 * harmonic sound does, by power · n²: what is heard is the period of the strong ones, and it is the same in noise as in silence.
 * A weak one counts at least this much of the strongest.
 */
const weakestShare = 0.03;
/**
 * Before anything is heard, partials are expected to stray by so much (2 cents on the recordings that were looked at). Few partials hardly
 * show it: two that disagree are no proof of stiffness.
 */
const expectedStrayCents = 2;
/** How much the string's usual straying counts, in partials, beside what these partials show: two of three that agree prove little. */
const looksOfUsual = 4;
/** So much the expected straying counts, in partials, against the first that is seen of it, where errors are said. */
const looksOfExpected = 0.5;
/** Partials do not stray quite independently: their average errs by this much more in variance. */
const strayTogether = 2;
/** From this many standard errors on a partial loses weight: it is a neighbour's, or a voice's. */
const doubtFrom = 1.3;
const doubtStrongFrom = 2.5;

/** The arithmetic itself is no better than so many cents. */
const leastOwnCents = 1e-4;
const ownVariance = (partial: Partial): number => ((partial.sigmaHertz / partial.hertz) * centsPerRatio) ** 2 + leastOwnCents ** 2;

/** Cents by which B moves partial n against the first, per unit of B. */
const slopeOf = (n: number, inharmonicity: number): number =>
  (centsPerRatio / 2) * ((n * n) / (1 + inharmonicity * n * n) - 1 / (1 + inharmonicity));

/** Least error of a partial's drift, in cents per second. */
const leastDriftError = 3e-3;

/** A remembered B is another string's where the partials scatter (variance) less than this share as much with a B of their own, … */
const anotherAtMost = 0.1;
/** … which is asked where so many partials scatter by so much (in cents²) and the memory is this much surer than nothing. */
const anotherFromPartials = 5;
const anotherFromScatter = 0.04;
const sureShare = 0.3;

type Solution = {
  base: number;
  inharmonicity: number;
  /** Information on B from the partials alone. */
  stiffnessHeard: number;
  chiSquare: number;
  /** Partials that count, doubtful ones in part. */
  effective: number;
  /** Variance in cents² by which these partials scatter beyond their own errors (not above 0 where they do not), and that with what is usual. */
  seen: number;
  stray: number;
  /** How far partials stray at least (variance), judged by what was seen: the errors said rest on it, the weights on the assumption. */
  leastSeen: number;
  unseenStray: number;
  /** What `seen` is worth, 0…1: where noise moves the partials further than straying does, little (information on a variance: (τ²/(τ²+σ²))²). */
  clarity: number;
};

/** The first partial and B by weighted least squares, again and again with new weights, which are left in the partials. */
const solve = (partials: readonly Partial[], count: number, guess: number, prior: Stiffness, usual: number | null): Solution | null => {
  let inharmonicity = prior.inharmonicity;
  let base = guess;
  let stiffnessHeard = 0;
  let chiSquare = 0;
  let effective = 0;
  let seen = 0;
  let clarity = 1;
  let stray = 0;
  let leastSeen = leastStrayCents ** 2;
  let heard = 0;
  for (let n = 1; n <= count; n++) if (partials[n]?.heard) heard++;
  const unseenStray = (expectedStrayCents / Math.max(1, heard - 1)) ** 2;
  for (let round = 0; round < 7; round++) {
    // Normal equations for (cents of the first partial, B), B with its prior.
    let aa = 0;
    let ab = 0;
    let bb = 1 / prior.sigma ** 2;
    let ya = 0;
    let yb = (prior.inharmonicity - inharmonicity) / prior.sigma ** 2;
    chiSquare = effective = 0;
    let scatter = 0;
    let offset = 0;
    let first = 0;
    let second = 0;
    for (let n = 1; n <= count; n++) {
      const partial = partials[n];
      if (partial === undefined || !partial.heard) continue;
      const error = centsApart(partial.hertz, base * stiffRatio(n, inharmonicity));
      const slope = slopeOf(n, inharmonicity);
      const own = ownVariance(partial);
      const variance = own + stray + (n === 1 ? 0 : leastStrayCents ** 2 + unseenStray);
      // The first rounds trust every partial alike; then outliers lose their say.
      const doubt = round < 1 ? 1 : Math.min(1, doubtFrom / Math.abs(error / Math.sqrt(own + stray + leastStrayCents ** 2)));
      const weight = doubt / variance;
      partial.weight = weight;
      chiSquare += Math.min(doubt, 1) * (error ** 2 / variance);
      effective += Math.min(doubt, 1);
      const plain = doubt / (own + leastStrayCents ** 2);
      scatter += plain * error ** 2;
      offset += plain * error;
      first += plain;
      second += plain * plain;
      aa += weight;
      ab += weight * slope;
      bb += weight * slope * slope;
      ya += weight * error;
      yb += weight * slope * error;
    }
    const determinant = aa * bb - ab * ab;
    if (aa === 0 || !(determinant > 0)) return null;
    base = shifted(base, (bb * ya - ab * yb) / determinant);
    inharmonicity = Math.min(3e-3, Math.max(0, inharmonicity + (aa * yb - ab * ya) / determinant));
    stiffnessHeard = determinant / aa - 1 / prior.sigma ** 2;
    scatter -= offset ** 2 / first;
    // What is known of B counts as one more observation: a B far off is a sign of straying, where few partials are heard.
    scatter += ((inharmonicity - prior.inharmonicity) / prior.sigma) ** 2;
    const ownOfMost = Math.max(0, effective / first - leastStrayCents ** 2);
    const expected = Math.max(0, usual ?? seen) + leastStrayCents ** 2;
    clarity = (expected / (expected + ownOfMost)) ** 2;
    if (round > 0 && effective > 1.5) seen = (scatter - (effective - 1)) / (first - second / first);
    const looks = Math.max(0, effective - 1) * clarity;
    const mixed = usual === null ? seen : (looksOfUsual * usual + looks * seen) / (looksOfUsual + looks);
    stray = Math.max(0, mixed);
    const whole = Math.max(0, mixed + leastStrayCents ** 2);
    const expectedToo = usual === null ? (looksOfExpected * unseenStray + looks * whole) / (looksOfExpected + looks) : whole;
    leastSeen = Math.min(leastStrayCents ** 2, expectedToo);
  }
  return { base, inharmonicity, stiffnessHeard, chiSquare, effective, seen, clarity, stray, leastSeen, unseenStray };
};

/** Variance of B as solved, by the weights left in the partials and what they really err by. */
const stiffnessError = (
  partials: readonly Partial[],
  count: number,
  { inharmonicity, stiffnessHeard, stray, leastSeen }: Solution,
  before: Stiffness,
  inflation: number,
): number => {
  let weights = 0;
  let slopes = 0;
  for (let n = 1; n <= count; n++) {
    const partial = partials[n];
    if (partial === undefined || !partial.heard) continue;
    weights += partial.weight;
    slopes += partial.weight * slopeOf(n, inharmonicity);
  }
  let error = 0;
  for (let n = 1; n <= count; n++) {
    const partial = partials[n];
    if (partial === undefined || !partial.heard) continue;
    const variance = ownVariance(partial) + stray + (n === 1 ? 0 : leastSeen);
    error += (partial.weight * (slopeOf(n, inharmonicity) - slopes / weights)) ** 2 * variance;
  }
  const known = 1 / before.sigma ** 2;
  return Math.min(
    1 / (known + stiffnessHeard / inflation),
    ((known * before.sigmaSeen) ** 2 + inflation * error) / (known + stiffnessHeard) ** 2,
  );
};

const scatterOf = ({ seen }: Solution): number => Math.max(0, seen) + leastStrayCents ** 2;

/** Whether what is remembered of B may be another string's of the same pitch: a unison pair need not be a pair in stiffness. */
const disagrees = (known: Solution, prior: Stiffness): boolean =>
  prior.sigma < sureShare * unknownStiffness.sigma && known.effective > anotherFromPartials && scatterOf(known) > anotherFromScatter;

/**
 * Pitch and stiffness of a string from its partials 1…`count` as measured (index = number): weighted least squares for the first
 * partial and B, re-weighted for outliers (P. Huber, Ann. Math. Statist. 35, 1964) and for the partials' own straying
 * (random effects: R. DerSimonian and N. Laird, Controlled Clinical Trials 7, 1986). Null where no partial is heard.
 */
export const fitSeries = (
  partials: readonly Partial[],
  count: number,
  guess: number,
  prior: Stiffness,
  strays: Strays | null = null,
): Fit | null => {
  const usual = strays === null ? null : strays.usual();
  const known = solve(partials, count, guess, prior, usual);
  if (known === null) return null;
  const afresh = disagrees(known, prior) ? solve(partials, count, guess, unknownStiffness, usual) : null;
  const isAnother = afresh !== null && scatterOf(afresh) < anotherAtMost * scatterOf(known);
  // The weights left in the partials must be those of what counts.
  const solution = isAnother ? afresh : afresh === null ? known : (solve(partials, count, guess, prior, usual) ?? known);
  const { inharmonicity, stiffnessHeard, chiSquare, effective, seen, clarity, stray, leastSeen, unseenStray } = solution;
  let { base } = solution;
  const before = isAnother ? unknownStiffness : prior;
  let most = 0;
  for (let n = 1; n <= count; n++) if (partials[n]?.heard) most = Math.max(most, n * n * (partials[n]?.power ?? 0));
  const inflation = Math.max(1, chiSquare / Math.max(1, effective - 1));
  // What was known before is not doubted because the partials disagree now.
  const varianceStiffness = 1 / (1 / before.sigma ** 2 + stiffnessHeard / inflation);
  const errorStiffness = stiffnessError(partials, count, solution, before, inflation);
  let weights = 0;
  let weightSquares = 0;
  let noise = 0;
  let noiseAtMost = 0;
  let slopes = 0;
  for (let round = 0; round < 3; round++) {
    weights = weightSquares = noise = noiseAtMost = slopes = 0;
    let pull = 0;
    for (let n = 1; n <= count; n++) {
      const partial = partials[n];
      if (partial === undefined || !partial.heard) continue;
      const own = ownVariance(partial);
      const variance = own + (n === 1 ? 0 : leastStrayCents ** 2);
      const error = centsApart(partial.hertz, base * stiffRatio(n, inharmonicity));
      const doubt =
        round === 0 ? partial.weight * (variance + stray) : Math.min(1, doubtStrongFrom / Math.abs(error / Math.sqrt(variance + stray)));
      const slope = slopeOf(n, inharmonicity);
      const share = Math.max(weakestShare, (n * n * partial.power) / most);
      // A high partial tells of the first only as well as B is known.
      const weight = doubt / (variance + slope ** 2 * varianceStiffness + stray / share);
      weights += weight;
      weightSquares += weight * weight;
      noise += weight * weight * (own + (n === 1 ? 0 : leastSeen));
      noiseAtMost += weight * weight * variance;
      pull += weight * error;
      slopes += weight * slope;
    }
    base = shifted(base, pull / weights);
  }
  const systematic = (strayTogether * stray * weightSquares) / weights ** 2;
  if (strays !== null && effective > 3) strays.learn(seen, clarity);
  let drift = 0;
  let driftWeight = 0;
  let power = 0;
  let ratio = 0;
  let carried = 0;
  let decay = 0;
  for (let n = 1; n <= count; n++) {
    const partial = partials[n];
    if (partial === undefined || !partial.heard) continue;
    const scatter = ownVariance(partial) + stray + (n === 1 ? 0 : leastStrayCents ** 2);
    const share = partial.weight * scatter;
    // What of the weight is left once all that it was divided by is taken out: whether the partial is believed.
    const belief = partial.weight * (scatter + (n === 1 ? 0 : unseenStray));
    const variance = ((partial.sigmaDriftHertzPerSecond / partial.hertz) * centsPerRatio) ** 2 + leastDriftError ** 2;
    drift += (belief * (partial.driftHertzPerSecond / partial.hertz) * centsPerRatio) / variance;
    driftWeight += belief / variance;
    power += partial.power;
    decay += partial.power * partial.decayPerSecond;
    ratio = Math.max(ratio, partial.ratio);
    carried += share > 0.3 ? 1 : 0;
  }
  return {
    hertz: base,
    sigmaCents: Math.sqrt((inflation * noise) / weights ** 2 + (slopes / weights) ** 2 * errorStiffness),
    sigmaAtMostCents: Math.sqrt((inflation * noiseAtMost) / weights ** 2 + (slopes / weights) ** 2 * varianceStiffness),
    sigmaByStiffnessCents: Math.abs(slopes / weights) * Math.sqrt(errorStiffness),
    driftCentsPerSecond: drift / driftWeight,
    sigmaDrift: Math.sqrt(inflation / driftWeight),
    stiffness: { inharmonicity, sigma: Math.sqrt(varianceStiffness), sigmaSeen: Math.sqrt(errorStiffness) },
    isAnother,
    inflation,
    systematicCents: Math.sqrt(systematic),
    partials: carried,
    power,
    ratio,
    decayPerSecond: decay / power,
  };
};
