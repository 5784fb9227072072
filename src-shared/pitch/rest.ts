import type { Estimate } from './follow.ts';
import { centsApart, shifted } from './string.ts';

/** How far a resting string wanders, in cents per root second; more while the glide of its pluck dies away. */
const wanderCents = 0.05;
const wanderPluckedCents = 1;
const glideSeconds = 0.25;
/** … and as the partials' straying changes, by so much of it. */
const strayWander = 2;
/** So much of the straying (in variance) beats from one stretch to the next, and averages out as noise does. */
const strayNews = 0.25;
/** Beyond this many standard errors from what was held, the string is somewhere else. */
const limit = 3;
const limitMoving = 1;
/** A measurement with a larger error must go on for a while before it overrules what was held. */
const noisyCents = 0.25;
const outlierSeconds = 0.06;
/** A peg turns no faster than this, in cents per second; for so long a faster jump is not believed, and the error grows by so much. */
const slideAtMost = 200;
const jumpSeconds = 0.16;
const clearJumpSeconds = 0.025;
const doubtPerSecond = 8;
const heldAtMostSeconds = 0.4;

/**
 * Holds what has been learnt about a string at rest: a scalar Kalman filter with a random walk (R. Kalman, J. Basic Eng. 82, 1960).
 * In noise it keeps the value while the note dies away; a string that moves is let go at once, so nothing lags behind a turning peg.
 */
export const createRest = () => {
  let rival: { hertz: number; atSeconds: number; sinceSeconds: number } | null = null;
  let held: { hertz: number; variance: number; atSeconds: number } | null = null;

  /** The estimate with what was known before folded in; null where it has been contradicted for too long to be shown. */
  const settle = (estimate: Estimate, atSeconds: number, sincePluckSeconds: number): Estimate | null => {
    const measured = estimate.sigmaCents ** 2 + strayNews * estimate.systematicCents ** 2;
    const passed = held === null ? 0 : atSeconds - held.atSeconds;
    const wander = wanderCents + wanderPluckedCents * Math.exp(-sincePluckSeconds / glideSeconds);
    const before = held === null ? Infinity : held.variance + (wander ** 2 + (strayWander * estimate.systematicCents) ** 2) * passed;
    const apart = held === null ? 0 : centsApart(estimate.hertz, held.hertz);
    const error = Math.sqrt(before + measured + (estimate.moving > 0.5 ? 0 : estimate.systematicCents ** 2));
    if (held === null || Math.abs(apart) > (estimate.moving > 0.5 ? limitMoving : limit) * error) {
      // A peg cannot jump: what does is a voice or another string, for a while; so is a lone outlier in noise.
      const jump = Math.abs(apart) > slideAtMost * passed + limit * error;
      const noisy = measured > noisyCents ** 2;
      const patience = jump ? (noisy ? jumpSeconds : clearJumpSeconds) : noisy && before < measured ? outlierSeconds : 0;
      const goesOn =
        rival !== null && Math.abs(centsApart(estimate.hertz, rival.hertz)) < slideAtMost * (atSeconds - rival.atSeconds) + 2 * error;
      rival = {
        hertz: estimate.hertz,
        atSeconds,
        sinceSeconds: goesOn && rival !== null ? rival.sinceSeconds : atSeconds,
      };
      if (held !== null && atSeconds - rival.sinceSeconds < patience) {
        if (passed > heldAtMostSeconds) return null;
        return {
          ...estimate,
          hertz: held.hertz,
          sigmaCents: Math.sqrt(before + (doubtPerSecond * passed) ** 2),
          steady: false,
        };
      }
      held = { hertz: estimate.hertz, variance: measured, atSeconds };
      rival = null;
      return estimate;
    }
    rival = null;
    // Stretches overlap: of this one only the newest `passed` seconds are news.
    const news = measured * Math.max(1, estimate.seconds / Math.max(1e-3, passed));
    held = {
      hertz: shifted(held.hertz, (apart * before) / (before + news)),
      variance: (before * news) / (before + news),
      atSeconds,
    };
    return held.variance < measured ? { ...estimate, hertz: held.hertz, sigmaCents: Math.sqrt(held.variance) } : estimate;
  };

  return {
    settle,
    restart: () => {
      held = rival = null;
    },
  };
};
