import type { Estimate } from './follow.ts';
import { centsApart, shifted } from './string.ts';

/** How far a resting string wanders, in cents per root second. */
const wanderCents = 0.4;
/** Beyond this many standard errors from what was held, the string is somewhere else. */
const limit = 3;
const limitMoving = 1;
/** A measurement with a larger error must be seen twice before it overrules what was held. */
const noisyCents = 0.25;

/**
 * Holds what has been learnt about a string at rest: a scalar Kalman filter with a random walk (R. Kalman, J. Basic Eng. 82, 1960).
 * In noise it keeps the value while the note dies away; a string that moves is let go at once, so nothing lags behind a turning peg.
 */
export const createRest = () => {
  let contradicted = false;
  let held: { hertz: number; variance: number; atSeconds: number } | null = null;

  /** The estimate with what was known before folded in. */
  const settle = (estimate: Estimate, atSeconds: number): Estimate => {
    const measured = estimate.sigmaCents ** 2;
    const passed = held === null ? 0 : atSeconds - held.atSeconds;
    const before = held === null ? Infinity : held.variance + wanderCents ** 2 * passed;
    const apart = held === null ? 0 : centsApart(estimate.hertz, held.hertz);
    if (held === null || Math.abs(apart) > (estimate.moving > 0.5 ? limitMoving : limit) * Math.sqrt(before + measured)) {
      if (held !== null && !contradicted && measured > noisyCents ** 2 && before < measured) {
        contradicted = true;
        return { ...estimate, hertz: held.hertz, sigmaCents: estimate.sigmaCents };
      }
      contradicted = false;
      held = { hertz: estimate.hertz, variance: measured, atSeconds };
      return estimate;
    }
    contradicted = false;
    // Stretches overlap: of this one only the newest `passed` seconds are news.
    const news = measured * Math.max(1, estimate.seconds / Math.max(1e-3, passed));
    held = { hertz: shifted(held.hertz, (apart * before) / (before + news)), variance: (before * news) / (before + news), atSeconds };
    return held.variance < measured ? { ...estimate, hertz: held.hertz, sigmaCents: Math.sqrt(held.variance) } : estimate;
  };

  return {
    settle,
    restart: () => {
      held = null;
      contradicted = false;
    },
  };
};
