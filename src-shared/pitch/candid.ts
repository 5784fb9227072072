import type { Estimate } from './follow.ts';

/** What a reading errs by, in cents, by its causes, and what tells how well they were judged. */
export type Errors = {
  /** Noise and what else more listening takes away. */
  readonly sigmaCents: number;
  /** The partials' straying. */
  readonly stray: number;
  /** Movement that is not even. */
  readonly passing: number;
  /** Mean square of how far the last measurements lay from what was held, over their own variance. */
  readonly surprise: number;
  readonly sincePluckSeconds: number;
};

/**
 * What is left once every cause is modelled: measured with the pitch bench, seeds 820001 + 101 i (32 clips a class), 930017 + 101 i and
 * 1150027 + 101 i (16), by what the tracker sees. Measurements that surprise one another err by more than they say, as under speech, and such that
 * agree by less (adaptive filtering: R. Mehra, IEEE Trans. Automatic Control 15, 1970): as the root of the surprise, what is at 0 and what a unit adds.
 */
const noiseAtRest = 0.76;
const noiseBySurprise = 0.5;
const passingAtRest = 0.8;
const passingBySurprise = 0.5;
/** What partials leak to one another counts as noise, and does less harm: so much is left of it where they lie together, and all of it so many bins apart. */
const crowdedShare = 0.5;
const clearBins = 40;
/**
 * Right after a pluck the partials of a string glide each by itself, which their straying shows too little; what they stray by later averages
 * out in part (recorded and rendered plucks).
 */
const strayLater = 0.63;
const strayPlucked = 1.8;
const strayPluckedSeconds = 0.33;

/** The estimate with the errors that such readings turn out to have. */
export const candid = (estimate: Estimate, { sigmaCents, stray, passing, surprise, sincePluckSeconds }: Errors): Estimate => {
  const surprised = Math.sqrt(surprise);
  const crowded = Math.min(1, crowdedShare + ((1 - crowdedShare) * estimate.hertz * estimate.seconds) / clearBins);
  const plucked = Math.exp(-sincePluckSeconds / strayPluckedSeconds);
  return {
    ...estimate,
    sigmaCents: crowded * (noiseAtRest + noiseBySurprise * surprised) * sigmaCents,
    systematicCents: Math.hypot((strayLater + strayPlucked * plucked) * stray, (passingAtRest + passingBySurprise * surprised) * passing),
  };
};
