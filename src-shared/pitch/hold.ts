import type { Conditioned } from './condition.ts';
import { faintRatio, type createFollower, type Estimate } from './follow.ts';
import type { Powers } from './spectrum.ts';
import { stiffRatio } from './string.ts';

/** A string is known well once it was heard for so long within so much. */
const knownSeconds = 0.25;
const knownCents = 1;
/** How much the error of a string grows that is not heard, in cents per second, and how far it may. */
const unheardDoubt = 5;
const sigmaAtMostCents = 3;
/** Stretches that are looked at, in samples: the shortest in which the string should stand so far above the noise (power, per bin). */
const stretches = [1280, 2560, 5120] as const;
const [, , longest] = stretches;
const clearRatio = 12;
const partialsAtMost = 8;
/** Partials that stood this little above the noise when the string was heard last are not asked. */
const ratioAtLeast = 4;
/** A partial beats and dies away not quite as foretold: it is expected to have kept this share of the power that it should have. */
const expectedShare = 0.4;
/** A string dies away at least and at most so fast, in 1/s. */
const slowestDecay = 0.7;
const fastestDecay = 8;
/** Only so much evidence for a string is kept, and so much against it refutes it (natural logs of the likelihood ratio). */
const evidenceAtMost = 1;
const refutedAt = -3;

/** ln I0: the modified Bessel function, by its series and its asymptote (M. Abramowitz and I. Stegun, 9.8.1 and 9.7.1, to a few per cent). */
const logBessel = (value: number): number =>
  value < 2 ? Math.log1p((value / 2) ** 2 + (value / 2) ** 4 / 4) : value - 0.5 * Math.log(2 * Math.PI * value) + 1 / (8 * value);

/**
 * Evidence of one partial for a string that rings on as foretold: how much likelier its power over the noise is with a sinusoid of power
 * `expected` (Rice, of unknown phase) than with none. Natural log.
 */
const evidenceOf = (heard: number, expected: number): number => -expected + logBessel(2 * Math.sqrt(expected * heard));

/** A string as it was heard last, and when; since when it was known well; and when it was last heard clearly. */
type Known = { readonly estimate: Estimate; readonly count: number; readonly sinceCount: number; readonly clearCount: number };
/** What its partials were when it was heard clearly for the last time. */
type Foretold = {
  /** Per partial (index = number), for one sample of a stretch; 0 where it was not heard. */
  readonly powers: readonly number[];
  readonly decayPerSecond: number;
  /** Count of the working sample that they hold for. */
  readonly count: number;
};

/** The bin of partial `n`. */
const placeOf = ({ hertzPerBin }: Powers, { hertz, stiffness }: Estimate, n: number): number =>
  Math.round((hertz * stiffRatio(n, stiffness.inharmonicity)) / hertzPerBin);

/**
 * Holds a string that was known well through a moment in which it cannot be measured, faint in noise or under a voice: as long as its partials
 * do not fall below what they were to have by now. A sequential test as in search.ts; in quiet a string that is damped is given up at once.
 * `samples` is the sound without its background, in the places of `state.samples`.
 */
export const createHold = (state: Conditioned, samples: Float64Array, follower: ReturnType<typeof createFollower>) => {
  const { rateHertz } = state;
  let known: Known | null = null;
  let foretold: Foretold | null = null;
  let evidence = 0;
  let askedAt = 0;

  /** Power per sample of the partials in a stretch that ends so many samples ago, without the noise. */
  const powersAt = (estimate: Estimate, ago: number, length: number): number[] => {
    const spectrum = follower.powersOf(samples, state.end - ago, length);
    return Array.from({ length: partialsAtMost + 1 }, (_, n) => {
      const place = placeOf(spectrum, estimate, n);
      const [power, floor] = [spectrum.power[place] ?? 0, spectrum.floor[place] ?? Infinity];
      return n > 0 && power > ratioAtLeast * floor ? (power - floor) / length ** 2 : 0;
    });
  };

  const foretell = ({ estimate, clearCount }: Known, usable: number): Foretold => {
    const ago = state.count - clearCount;
    const length = Math.min(longest, usable - ago);
    const powers = powersAt(estimate, ago, length);
    const back = Math.round(0.75 * length);
    const before = usable - ago - back < length ? null : powersAt(estimate, ago + back, length);
    const sum = (list: readonly number[]) => list.reduce((total, power, n) => total + (powers[n] === 0 ? 0 : power), 0);
    const decay = before === null ? estimate.decayPerSecond : (Math.log(sum(before) / sum(powers)) * rateHertz) / back / 2;
    return { powers, decayPerSecond: Math.min(fastestDecay, Math.max(slowestDecay, decay || 0)), count: clearCount - length / 2 };
  };

  /** Adds what the newest stretch says for or against the string. */
  const weigh = ({ estimate }: Known, { powers, decayPerSecond, count }: Foretold, usable: number) => {
    for (const length of stretches) {
      const last = length === longest || usable < 2 * length;
      const spectrum = follower.powersOf(samples, state.end, Math.min(usable, length));
      const left = Math.exp((-2 * decayPerSecond * (state.count - length / 2 - count)) / rateHertz) * length ** 2;
      let strongest = 0;
      let sum = 0;
      for (let n = 1; n <= partialsAtMost; n++) {
        const place = placeOf(spectrum, estimate, n);
        const floor = spectrum.floor[place] ?? Infinity;
        const expected = ((powers[n] ?? 0) * left) / floor;
        strongest = Math.max(strongest, expected);
        if (expected > 0) sum += evidenceOf((spectrum.power[place] ?? 0) / floor, expectedShare * expected);
      }
      if (strongest < clearRatio && !last) continue;
      evidence = Math.min(evidenceAtMost, evidence + sum * Math.min(1, (state.count - askedAt) / (0.4 * length)));
      return;
    }
  };

  const isKnownWell = ({ clearCount, sinceCount }: Known): boolean => clearCount - sinceCount >= knownSeconds * rateHertz;

  /** Whether a string known well may still sound in the newest `usable` samples. */
  const mayRing = (usable: number): boolean => {
    if (known === null || !isKnownWell(known)) return false;
    if (foretold === null) {
      if (usable - (state.count - known.clearCount) < stretches[0]) return false;
      foretold = foretell(known, usable);
      evidence = evidenceAtMost;
      askedAt = known.clearCount;
    }
    weigh(known, foretold, usable);
    askedAt = state.count;
    return evidence > refutedAt;
  };

  return {
    /** The string was heard; false where it was known well, but what is heard so faintly now is only noise. */
    heard: (estimate: Estimate, usable: number): boolean => {
      const isClear = estimate.ratio > faintRatio;
      const wasKnown = known !== null && isKnownWell(known);
      const isVague = Math.hypot(estimate.sigmaCents, estimate.systematicCents, estimate.suddenCents) > knownCents;
      const isLoose = estimate.moving > 0.5 || (isClear && isVague);
      known = {
        estimate,
        count: state.count,
        sinceCount: isLoose || known === null ? state.count : known.sinceCount,
        clearCount: isClear || known === null ? state.count : known.clearCount,
      };
      if (isClear) foretold = null;
      return isClear || !wasKnown || mayRing(usable);
    },
    /** The string heard last, with an error that grows, where it was known well and may still sound in the newest `usable` samples; else null. */
    ringsOn: (usable: number): Estimate | null => {
      if (known === null) return null;
      const unheard = (unheardDoubt * (state.count - known.count)) / rateHertz;
      const sigmaCents = Math.hypot(known.estimate.sigmaCents, unheard);
      return sigmaCents < sigmaAtMostCents && mayRing(usable) ? { ...known.estimate, sigmaCents, steady: false } : null;
    },
    forget: () => {
      known = foretold = null;
    },
  };
};
