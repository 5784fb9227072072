import { createCoarse } from './coarse.ts';
import type { Conditioned } from './condition.ts';
import type { createFollower, Estimate } from './follow.ts';
import type { createStiffnessMemory } from './memory.ts';
import { createPeakFinder } from './peaks.ts';
import { driftGoesOn, isHum, ringsAlone, soundsPlucked } from './plausible.ts';
import { centsApart } from './string.ts';
import type { Hint } from './types.ts';

const searchSamples = 2_560;
/** How well a string must account for the peaks before it is believed. */
const scoreAtLeast = 0.45;
/** Two pitches this far apart are two strings, or a string and its octave. */
const otherCents = 60;
/** A fit further than this from the pitch that it was started with went astray. */
const astrayCents = 80;
/** Hops that must agree after a pluck; more where no string was found at once; a time where no pluck was heard. */
const agreedAtLeast = 3;
const agreedLate = 6;
const lateSeconds = 0.09;
/** A string is clear soon after its pluck; what becomes clear later is mostly a voice, and must hold still for longer. */
const agreedVeryLate = 15;
const veryLateSeconds = 0.25;
const unpluckedSeconds = 0.3;
/** For so long after a pluck another string may turn out to be the right one; how often that is asked, and how often in a row it must be so. */
const freshSeconds = 0.5;
const checkSeconds = 0.06;
const doubtsAtMost = 2;
/** A lost string is taken up again within this many cents. */
const strayCents = 2.5;
/** … unless what is heard now lies this far off: the same course's other string, say. */
const elsewhereCents = 30;

type Belief = { estimate: Estimate; sinceCount: number; agreed: number };

/**
 * Decides which string sounds: coarse search and fit, hop by hop, until enough of them agree and the sound behaves like a string's.
 * `samplesSincePluck` is null where no pluck was heard. `samples` is the sound without its background, in the places of `state.samples`.
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
    if (again === null || Math.abs(centsApart(again.hertz, estimate.hertz)) > strayCents || again.sigmaCents > strayCents) return null;
    strayed = null;
    return again;
  };

  /** A fit to what the coarse search found, if it behaves like a string. */
  const fitTo = (hertz: number, usable: number, plucked: boolean): Estimate | null => {
    const estimate = follower.follow(samples, state.end, usable, { hertz, moving: 0.1, beginWith: 1 }, memory.recall(hertz));
    if (estimate === null || Math.abs(centsApart(estimate.hertz, hertz)) > astrayCents) return null;
    humming = isHum(estimate);
    return !humming && (plucked ? soundsPlucked(estimate) : ringsAlone(estimate)) ? estimate : null;
  };

  /** The string that sounds, once enough hops agree on it; null until then. `wasThere`: whether a pitch rang before the pluck. */
  const lookFor = (usable: number, samplesSincePluck: number | null, wasThere: (hertz: number) => boolean): Estimate | null => {
    humming = false;
    const fresh = samplesSincePluck === null || samplesSincePluck < freshSeconds * rateHertz;
    if (!fresh && strayed !== null && !strayed.ofThisPluck) strayed = null;
    const found = search(usable);
    const other = found !== null && strayed !== null && Math.abs(centsApart(found.hertz, strayed.estimate.hertz)) > elsewhereCents;
    if (other && !fresh) return null;
    const again = other ? null : takeUpAgain(usable);
    if (again !== null) return again;
    const known = found === null || (!fresh && wasThere(found.hertz));
    const estimate = known ? null : fitTo(found.hertz, usable, samplesSincePluck !== null);
    if (estimate === null) {
      belief = null;
      return null;
    }
    const reach = (samplesSincePluck === null ? 2 : 4) + 3 * estimate.sigmaCents;
    const goesOn =
      belief !== null && Math.abs(centsApart(estimate.hertz, belief.estimate.hertz)) < reach && driftGoesOn(belief.estimate, estimate);
    belief =
      goesOn && belief !== null ? { ...belief, estimate, agreed: belief.agreed + 1 } : { estimate, sinceCount: state.count, agreed: 1 };
    if (samplesSincePluck === null) return state.count - belief.sinceCount >= unpluckedSeconds * rateHertz ? estimate : null;
    const late = samplesSincePluck > lateSeconds * rateHertz + (8 * rateHertz) / estimate.hertz;
    const veryLate = samplesSincePluck > veryLateSeconds * rateHertz + (8 * rateHertz) / estimate.hertz;
    return belief.agreed >= (veryLate ? agreedVeryLate : late ? agreedLate : agreedAtLeast) ? estimate : null;
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
