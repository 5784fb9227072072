import { createCoarse } from './coarse.ts';
import type { Conditioned } from './condition.ts';
import type { createFollower, Estimate } from './follow.ts';
import type { createStiffnessMemory } from './memory.ts';
import { createPeakFinder } from './peaks.ts';
import { driftGoesOn, evidenceOfString, isHum, ringsAlone, soundsPlucked } from './plausible.ts';
import { centsApart } from './string.ts';
import { riseAtLeast } from './struck.ts';
import type { Hint } from './types.ts';

const searchSamples = 2_560;
/** How well a string must account for the peaks before it is believed. */
const scoreAtLeast = 0.45;
/** Two pitches this far apart are two strings, or a string and its octave. */
const otherCents = 60;
/** A fit further than this from the pitch that it was started with went astray. */
const astrayCents = 80;
/** Hops that must agree after a pluck, and the evidence that they must give together where it hardly rose; a time where no pluck was heard. */
const hopsAtLeast = 3;
const evidenceAtMost = 7;
const evidenceAtLeast = 1.5;
/** What counts for the score of a string that the search does not find now. */
const unheardScore = 0.4;
const missedCost = 2;
/** A voice that stands still within so many cents for so long, hop after hop, is rare: what each such hop adds. */
const stillSeconds = 0.1;
const stillCents = 6;
const stillEvidence = 0.7;
const unpluckedSeconds = 0.3;
/** For so long after a pluck another string may turn out to be the right one; how often that is asked, and how often in a row it must be so. */
const freshSeconds = 0.5;
const checkSeconds = 0.06;
const doubtsAtMost = 2;
/** Hum hardly ever begins with a pluck: what was there just before it with less than this share of its power is none until it has been heard for so long. */
const humBefore = 0.25;
export const humShowsSeconds = 1;
const humSamples = 1_280;
const humSamplesAtLeast = 480;
const humMarginSeconds = 0.014;
const humPartials = 4;
/** A lost string is taken up again within this many cents, where a partial stands this far above the noise: noise reaches 20. */
const strayCents = 2.5;
const strayRatio = 30;
/** … unless what is heard now lies this far off: the same course's other string, say. */
const elsewhereCents = 30;

/** A pluck that was heard: how long ago, in working samples, and by what factor of power it rose above what was there. */
type Pluck = { readonly samplesAgo: number; readonly rise: number };

type Belief = { estimate: Estimate; meanHertz: number; sinceCount: number; evidence: number; hops: number };

/** Whether two fits, one hop apart, are of one string. */
const isSame = (before: Estimate, now: Estimate, reachCents: number) =>
  Math.abs(centsApart(now.hertz, before.hertz)) < reachCents + 3 * now.sigmaCents && driftGoesOn(before, now);

/** The evidence that a string must give: less where it came out of quiet, as talk fills a room with sound and a pluck stands above it. */
const evidenceWanted = (rise: number): number => Math.max(evidenceAtLeast, evidenceAtMost - Math.log(rise / riseAtLeast));

/** How far a pitch lies below the lowest or above the highest string that may sound. */
const octavesAway = (hint: Hint | null, hertz: number): number =>
  hint === null || hint.hertz.length === 0
    ? 0
    : Math.max(0, -Math.log2(hertz / Math.min(...hint.hertz)), Math.log2(hertz / Math.max(...hint.hertz)));

/**
 * Decides which string sounds: coarse search and fit, hop by hop, until they agree and together are evidence enough that it is a string:
 * a sequential test (A. Wald, Ann. Math. Statist. 16, 1945).
 * `pluck` is null where none was heard. `samples` is the sound without its background, in the places of `state.samples`.
 */
export const createSearch = (
  state: Conditioned,
  samples: Float64Array,
  follower: ReturnType<typeof createFollower>,
  memory: ReturnType<typeof createStiffnessMemory>,
) => {
  const { rateHertz } = state;
  const findPeaks = createPeakFinder();
  const coarse = createCoarse(rateHertz);
  let hint: Hint | null = null;
  let belief: Belief | null = null;
  /** A string lost under another sound, of this pluck or of the one before. */
  let strayed: { estimate: Estimate; ofThisPluck: boolean } | null = null;
  let humming = false;
  let checkedAt = 0;
  let doubts = 0;

  const search = (usable: number) => {
    const length = Math.min(usable, searchSamples);
    const found = coarse(findPeaks(follower.powersOf(samples, state.end, length)), samples, state.end, length, hint);
    return found !== null && found.score >= scoreAtLeast ? found : null;
  };

  /** The lost string, if it is heard again where it was. */
  const takeUpAgain = (usable: number): Estimate | null => {
    if (strayed === null) return null;
    const { estimate } = strayed;
    const again = follower.follow(samples, state.end, usable, estimate, memory.recall(estimate.hertz));
    if (again === null || again.ratio < strayRatio) return null;
    if (Math.abs(centsApart(again.hertz, estimate.hertz)) > strayCents || again.sigmaCents > strayCents) return null;
    strayed = null;
    return again;
  };

  /** Power of the first partials of a pitch in the `length` samples of the whole sound that end at `end`. */
  const powerOf = (hertz: number, end: number, length: number): number => {
    const { power, hertzPerBin } = follower.powersOf(state.samples, end, length);
    let sum = 0;
    for (let n = 1; n <= humPartials; n++) sum += power[Math.round((n * hertz) / hertzPerBin)] ?? 0;
    return sum;
  };

  /** Whether a pitch was hardly there before the pluck. False where too little was heard to say, and once its decay tells more. */
  const cameWith = ({ samplesAgo }: Pluck, hertz: number, usable: number): boolean => {
    if (samplesAgo > humShowsSeconds * rateHertz) return false;
    const endBefore = state.end - samplesAgo - Math.round(humMarginSeconds * rateHertz);
    const length = Math.min(usable, humSamples, endBefore);
    return length >= humSamplesAtLeast && powerOf(hertz, endBefore, length) < humBefore * powerOf(hertz, state.end, length);
  };

  /** A fit to what the coarse search found, if it behaves like a string. */
  const fitTo = (hertz: number, usable: number, pluck: Pluck | null): Estimate | null => {
    const estimate = follower.follow(samples, state.end, usable, { hertz, moving: 0.1, beginWith: 1 }, memory.recall(hertz));
    if (estimate === null || Math.abs(centsApart(estimate.hertz, hertz)) > astrayCents) return null;
    humming = isHum(estimate) && (pluck === null || !cameWith(pluck, estimate.hertz, usable));
    return !humming && (pluck === null ? ringsAlone(estimate) : soundsPlucked(estimate)) ? estimate : null;
  };

  const newBelief = (estimate: Estimate): Belief => ({
    estimate,
    meanHertz: estimate.hertz,
    sinceCount: state.count,
    evidence: 0,
    hops: 0,
  });

  /** How fast a pitch has moved from the mean of what was believed, in cents per second. */
  const slideOf = ({ hertz }: Estimate): number => {
    const seconds = belief === null ? 0 : (state.count - belief.sinceCount) / rateHertz;
    return belief === null || seconds < stillSeconds ? Infinity : Math.abs(centsApart(hertz, belief.meanHertz)) / (seconds / 2);
  };

  /** The belief with one more hop. That the pitch stays where it was on the whole speaks for a string, the more the longer. */
  const strengthened = ({ meanHertz, sinceCount, evidence, hops }: Belief, estimate: Estimate, more: number): Belief => {
    const still = state.count - sinceCount > stillSeconds * rateHertz && Math.abs(centsApart(estimate.hertz, meanHertz)) < stillCents;
    return {
      estimate,
      meanHertz: meanHertz + (estimate.hertz - meanHertz) / (hops + 1),
      sinceCount,
      evidence: Math.max(0, evidence + more + (still ? stillEvidence : 0)),
      hops: hops + 1,
    };
  };

  /** The string that sounds, once enough hops agree on it; null until then. `wasThere`: whether a pitch rang before the pluck. */
  const lookFor = (usable: number, pluck: Pluck | null, wasThere: (hertz: number) => boolean): Estimate | null => {
    humming = false;
    const fresh = pluck === null || pluck.samplesAgo < freshSeconds * rateHertz;
    if (!fresh && strayed !== null && !strayed.ofThisPluck) strayed = null;
    const found = search(usable);
    const other = found !== null && strayed !== null && Math.abs(centsApart(found.hertz, strayed.estimate.hertz)) > elsewhereCents;
    if (other && !fresh) return null;
    const again = other ? null : takeUpAgain(usable);
    if (again !== null) return again;
    const plucked = pluck !== null;
    const known = found === null || (!fresh && wasThere(found.hertz));
    const estimate = known ? null : fitTo(found.hertz, usable, pluck);
    const evidence = (of: Estimate, score: number) =>
      pluck === null ? 0 : evidenceOfString(of, score, octavesAway(hint, of.hertz), pluck.samplesAgo / rateHertz, slideOf(of));
    const reach = plucked ? 4 : 2;
    const isFound = belief !== null && estimate !== null && isSame(belief.estimate, estimate, reach);
    if (belief !== null && !isFound) {
      // A string half believed in is looked for where it was, though the search finds nothing now, or something else.
      const again = plucked ? fitTo(belief.estimate.hertz, usable, pluck) : null;
      belief =
        again !== null && isSame(belief.estimate, again, reach)
          ? strengthened(belief, again, evidence(again, unheardScore))
          : { ...belief, evidence: belief.evidence - missedCost };
    }
    if (belief !== null && !isFound && belief.evidence <= 0) belief = null;
    if (estimate !== null && found !== null && (isFound || belief === null))
      belief = strengthened(belief ?? newBelief(estimate), estimate, evidence(estimate, found.score));
    if (belief === null) return null;
    const enough = plucked
      ? belief.hops >= hopsAtLeast && belief.evidence >= evidenceWanted(pluck.rise)
      : state.count - belief.sinceCount >= unpluckedSeconds * rateHertz;
    return enough ? belief.estimate : null;
  };

  /**
   * Every so often while the note is fresh: is it still this string, and not its octave or another one? Later nothing is put right:
   * another string needs a pluck of its own, and a dying note shows its octave.
   */
  const stillRight = (usable: number, samplesSincePluck: number, estimate: Estimate): boolean => {
    if (samplesSincePluck > freshSeconds * rateHertz || state.count - checkedAt < checkSeconds * rateHertz) return true;
    checkedAt = state.count;
    const found = search(usable);
    doubts = found !== null && Math.abs(centsApart(found.hertz, estimate.hertz)) > otherCents ? doubts + 1 : 0;
    return doubts <= doubtsAtMost;
  };

  const forget = () => {
    belief = null;
    doubts = 0;
  };

  return {
    lookFor,
    stillRight,
    /** Whether the last look found mains hum. */
    heardHum: () => humming,
    /** Remembers a string that was lost, to be taken up again where it was. */
    lose: (estimate: Estimate, ofThisPluck: boolean) => {
      strayed = {
        estimate: { ...estimate, beginWith: ofThisPluck ? 2 : 1, moving: 0, slowest: ofThisPluck ? estimate.slowest : Infinity },
        ofThisPluck,
      };
    },
    expect: (next: Hint | null) => {
      hint = next;
    },
    forget,
    /** A new pluck, or silence: what was lost stays lost. */
    forgetAll: () => {
      forget();
      strayed = null;
    },
    reset: () => {
      forget();
      strayed = null;
      checkedAt = 0;
    },
  };
};
