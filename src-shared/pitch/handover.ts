import type { createBackground } from './background.ts';
import type { Conditioned } from './condition.ts';
import type { createFollower, Estimate } from './follow.ts';
import { centsApart, stiffRatio } from './string.ts';
import { toSeries } from './strings.ts';

/** Background is learnt from this many samples at most and at least, up to a moment before the pluck. */
const backgroundSamples = 3_072;
const leastBackgroundSamples = 1_200;
const marginSeconds = 0.014;
const longestSamples = 8_000;
/** So much of a new sound tells whether the string before it rings on. */
const ringingSeconds = 0.042;
/** How much the error of a foretold pitch grows, in cents per second. */
const foretoldDoubt = 5;
/** The old string's partials can be told from the new one's where they lie so many bins of the stretch apart; how long that may be, and how often it is asked. */
const clearBins = 2.5;
const clearSamples = 8_000;
const askedSeconds = 0.05;
const outdoneSamples = 9_600;
/** A string that was plucked anew is found again this near to where it was; else it was another one, its octave or a twelfth below. */
const anotherCents = 300;

/** A string that was followed, and when it was plucked. */
type Followed = { readonly estimate: Estimate; readonly pluckedAt: number | null };
/** The string followed before the last pluck. `ringsOn` is null until it can be told. */
type Before = Followed & { ringsOn: boolean | null };

/**
 * Keeps the string followed before a pluck until it is known what the pluck was: the same string again, another string while this one
 * rings on, or no pluck at all but a knock or a voice, after which the old string is taken up again.
 */
export const createHandover = (
  state: Conditioned,
  follower: ReturnType<typeof createFollower>,
  background: ReturnType<typeof createBackground>,
) => {
  const { rateHertz } = state;
  let before: Before | null = null;
  /** The string before, said to be plucked anew, until it is known whether it was. */
  let plucked: Followed | null = null;
  /** The same once a string was found. */
  let outdone: Followed | null = null;
  let askedAt = 0;

  return {
    /**
     * A pluck at the count `onset`: what rang for `heardFor` samples until then becomes background, the string followed among it. `followed` is
     * null where the pluck before has not come to anything yet: then the string before that one is still the one to keep.
     */
    pluck: (onset: number, heardFor: number, followed: Followed | null) => {
      const back = state.count - onset + Math.round(marginSeconds * rateHertz);
      const length = Math.min(backgroundSamples, heardFor, state.end - back);
      const isLearnt = length >= leastBackgroundSamples;
      const kept = followed ?? before ?? (isLearnt ? plucked : null);
      before = kept === null ? null : { ...kept, ringsOn: null };
      if (before !== null) plucked = null;
      outdone = null;
      if (!isLearnt) return;
      const isTarget = (hertz: number) => {
        if (kept === null) return false;
        const { estimate } = kept;
        const partial = Math.round(hertz / estimate.hertz);
        const expected = estimate.hertz * stiffRatio(partial, estimate.stiffness.inharmonicity);
        return partial > 0 && Math.abs(hertz - expected) < Math.max(2, 0.004 * expected);
      };
      background.learn(state.samples, back, length, follower.spectrumOf(state.samples, state.end - back, length), isTarget);
    },

    /** Whether the old string rings on or was plucked anew: `wait` where that needs more sound; `plucked anew` is said once, with the old estimate. */
    settle: (usable: number, samplesSincePluck: number): 'wait' | 'known' | { pluckedAnew: Estimate } => {
      if (before === null || before.ringsOn !== null) return 'known';
      if (usable < ringingSeconds * rateHertz) return 'wait';
      before.ringsOn = background.targetRingsOn(usable);
      if (before.ringsOn === true) return 'known';
      background.releaseTarget(state.samples, samplesSincePluck);
      plucked = before;
      before = null;
      return { pluckedAnew: plucked.estimate };
    },

    /** The old string while it rings on as foretold: its own phase confirms its pitch while another sound is looked at. Null where it does not. */
    foretold: (usable: number, samplesSincePluck: number): Estimate | null =>
      before?.ringsOn === true && background.targetRingsOn(usable) === true
        ? { ...before.estimate, sigmaCents: Math.hypot(before.estimate.sigmaCents, (foretoldDoubt * samplesSincePluck) / rateHertz) }
        : null,

    /**
     * Looks again at the old string that was said to be plucked anew, as more is heard: where its partials stand clear of those of the string
     * `found` since (null: none yet) they may go on as foretold, and are taken away. Whether that is so is said once.
     */
    reconsider: (usable: number, found: Estimate | null): boolean => {
      const old = plucked ?? outdone;
      const length = Math.min(usable, found === null ? Math.round(ringingSeconds * rateHertz) : clearSamples);
      if (old === null || (found !== null && state.count - askedAt < askedSeconds * rateHertz)) return false;
      askedAt = state.count;
      const reach = (clearBins * rateHertz) / length;
      const rings = background.releasedRingsOn(length, (hertz) => found === null || toSeries(found, hertz) > reach);
      if (rings === true) {
        background.takeBack(state.samples, Math.min(state.end, longestSamples));
        before = plucked === null ? null : { ...plucked, ringsOn: true };
      }
      if (rings === true || usable > outdoneSamples) plucked = outdone = null;
      return rings === true;
    },

    /** It was no pluck: gives the old string back, to be followed again. Null where there was none. */
    giveBack: (): Followed | null => {
      if (before === null) return null;
      background.releaseTarget(state.samples, Math.min(state.end, longestSamples));
      const back = before;
      before = null;
      return back;
    },

    /** A string was found. Where it is not the one said to be plucked anew, that one may ring on: its partials lie among this one's. */
    finish: (string: Estimate | null) => {
      before = null;
      if (string !== null && plucked !== null && Math.abs(centsApart(string.hertz, plucked.estimate.hertz)) > anotherCents)
        background.doubtReleased();
      outdone = string === null ? null : plucked;
      plucked = null;
    },
  };
};
