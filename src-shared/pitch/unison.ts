import { fitPair } from './pair.ts';
import { unknownStiffness, type Fit } from './series.ts';
import { centsApart, centsPerRatio, shifted, stiffRatio } from './string.ts';
import type { StringPitch } from './types.ts';

const partialsAtMost = 6;
const highestHertz = 3_500;
/** The two lie within so many cents or bins of one another, and nothing else so near. */
const reachCents = 16;
const reachBins = 3;
/** Below, one line explains the sound as well as two. */
const gainAtLeast = 15;
const faintest = 0.05;
const apartSigmas = 1.5;
/** Partials stray from the formula at least so far, in cents; and glide and decay are not quite what the fit takes them for. */
const strayCents = 0.06;
const leastSigmaCents = 0.05;

/** Partial n of both strings, in cents from n times the rough pitch; which belongs to which string is not known. */
type Seen = { n: number; cents: readonly [number, number]; variances: readonly [number, number] };
type Line = { cents: number; variance: number; misfit: number };

/** Pitch and B of one string from its partials, B known beforehand only as that of any string. */
const lineThrough = (partials: readonly { n: number; cents: number; variance: number }[], inharmonicity: number): Line => {
  const priorWeight = 1 / unknownStiffness.sigma ** 2;
  const priorOffset = unknownStiffness.inharmonicity - inharmonicity;
  let [aa, ab, bb, ya, yb, yy] = [0, 0, priorWeight, 0, priorWeight * priorOffset, priorWeight * priorOffset ** 2];
  for (const { n, cents, variance } of partials) {
    const value = cents - centsApart(stiffRatio(n, inharmonicity), n);
    const slope = (centsPerRatio / 2) * ((n * n) / (1 + inharmonicity * n * n) - 1 / (1 + inharmonicity));
    aa += 1 / variance;
    ab += slope / variance;
    bb += slope ** 2 / variance;
    ya += value / variance;
    yb += (value * slope) / variance;
    yy += value ** 2 / variance;
  }
  const determinant = aa * bb - ab * ab;
  const cents = (bb * ya - ab * yb) / determinant;
  const more = (aa * yb - ab * ya) / determinant;
  return { cents, variance: bb / determinant, misfit: Math.max(0, yy - cents * ya - more * yb) };
};

/** Both strings under every way of sharing out the partials, each way weighing by how well it fits. */
const shareOut = (seen: readonly Seen[], inharmonicity: number): [Line, Line] => {
  const ways = Array.from({ length: 2 ** (seen.length - 1) }, (_, way) => {
    const [one, two] = [0, 1]
      .map((string) =>
        lineThrough(
          seen.map(({ n, cents, variances }, index) => {
            const which = ((way >> index) & 1) === string ? 1 : 0;
            return { n, cents: cents[which], variance: variances[which] };
          }),
          inharmonicity,
        ),
      )
      .sort((left, right) => left.cents - right.cents);
    return { one, two, misfit: (one?.misfit ?? 0) + (two?.misfit ?? 0) };
  });
  const best = Math.min(...ways.map(({ misfit }) => misfit));
  // Where even the best way fits badly, all errors are larger than they were taken for.
  const excess = Math.max(1, best / Math.max(1, 2 * seen.length - 2));
  const mixed = (string: 'one' | 'two'): Line => {
    let [weights, sum, squares] = [0, 0, 0];
    for (const way of ways) {
      const line = way[string];
      if (line === undefined) continue;
      const weight = Math.exp((best - way.misfit) / 2 / excess);
      weights += weight;
      sum += weight * line.cents;
      squares += weight * (line.cents ** 2 + line.variance * excess);
    }
    const cents = sum / weights;
    return { cents, variance: squares / weights - cents ** 2, misfit: best };
  };
  return [mixed('one'), mixed('two')];
};

/**
 * Two strings of one expected pitch, closer together than their lines can be told apart: at every partial that they have to themselves two
 * sinusoids are fitted, and the partials shared out between two stiff strings. `rough`: either of them, or the two taken for one; `others`: all
 * further strings; `alone` gives the sound near a frequency with everything else taken away. In rising order; null where that is not to be had.
 */
export const readUnison = (
  rough: Fit,
  others: readonly ((hertz: number) => number)[],
  alone: (hertz: number, reachHertz: number) => Float64Array,
  { rateHertz, binHertz }: { rateHertz: number; binHertz: number },
): readonly [StringPitch, StringPitch] | null => {
  const seen: Seen[] = [];
  for (let n = 1; n <= partialsAtMost; n++) {
    const expected = rough.hertz * stiffRatio(n, rough.stiffness.inharmonicity);
    if (expected > highestHertz) break;
    const reach = Math.max(reachBins * binHertz, (reachCents / centsPerRatio) * expected);
    if (others.some((distanceTo) => distanceTo(expected) < reach + binHertz)) continue;
    const pair = fitPair(alone(expected, reach), expected, rateHertz);
    if (pair === null || pair.gain < gainAtLeast) continue;
    const [low, high] = pair.hertz;
    const [lowSigma, highSigma] = pair.sigmaHertz;
    const inReach = Math.abs(low - expected) < reach && Math.abs(high - expected) < reach;
    const [weaker = 0, stronger = 0] = pair.amplitudes.toSorted((left, right) => left - right);
    if (!inReach || weaker < faintest * stronger || high - low < apartSigmas * Math.hypot(lowSigma, highSigma)) continue;
    const variance = (sigma: number) => ((sigma / expected) * centsPerRatio) ** 2 + strayCents ** 2;
    seen.push({
      n,
      cents: [centsApart(low, n * rough.hertz), centsApart(high, n * rough.hertz)],
      variances: [variance(lowSigma), variance(highSigma)],
    });
  }
  if (seen.length === 0) return null;
  const [low, high] = shareOut(seen, rough.stiffness.inharmonicity);
  const reading = ({ cents, variance }: Line): StringPitch => ({
    hertz: shifted(rough.hertz, cents),
    sigmaCents: Math.hypot(Math.sqrt(Math.max(0, variance)), leastSigmaCents),
  });
  return [reading(low), reading(high)];
};
