import { candid } from './candid.ts';
import { glideDrift, glideSeconds, type Estimate } from './follow.ts';
import { centsApart, shifted } from './string.ts';

/** How far a resting string may wander, in cents per root second, and how far it usually does; more while the glide of its pluck dies away. */
const wanderCents = 0.08;
const usualWanderCents = 0.01;
const wanderPluckedCents = 4;
const pluckedSeconds = 0.2;
/** … and as the partials' straying changes, by so much of it. */
const strayWander = 2;
/** So much of the straying (in variance) beats from one stretch to the next, and averages out as noise does. */
const strayNews = 0.25;
/** This share of a stretch makes one look. */
const lookShare = 0.35;
/**
 * The errors of overlapping stretches telescope: what one reads too high at its end the next reads too low where it begins. With a memory
 * of rate a, estimates h of t seconds leave (at)²/((at)² + t²·∫h′²/∫h²) of their variance; the estimator weighs by the square of its Hann
 * window, for which that constant is 16π²/7.
 */
const telescope = (16 * Math.PI ** 2) / 7;
/** … and the first estimates of a string share their error: so do two stretches of t seconds, begun Δ apart, as cos(2πΔ/t) up to a quarter of t. */
const shared = (passedSeconds: number, seconds: number): number =>
  passedSeconds < seconds / 4 ? Math.cos((2 * Math.PI * passedSeconds) / seconds) : 0;
/** A pluck's glide may be so many times the usual one, and is missed where it drowns in noise. */
const lagSpread = 2;
/** Surprise is averaged over so long, from what is usual; a lone outlier counts so much of it at most. */
const surpriseSeconds = 0.15;
const usualSurprise = 0.5;
const surpriseAtMost = 9;
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
  /**
   * `variance` steers the filter; the others are what the held value errs by: `noise` (variance), `lag` behind a glide, the partials' `stray`ing,
   * uneven movement that is `passing` (cents). `surprise`: how far measurements lie from what was held, squared, over their own variance.
   */
  let held: {
    hertz: number;
    variance: number;
    noise: number;
    lag: number;
    stray: number;
    passing: number;
    surprise: number;
    atSeconds: number;
    sinceSeconds: number;
  } | null = null;

  /** The estimate with what was known before folded in; null where it has been contradicted for too long to be shown. */
  const settle = (estimate: Estimate, atSeconds: number, sincePluckSeconds: number): Estimate | null => {
    const byStiffness = estimate.sigmaByStiffnessCents ** 2;
    const stray = Math.sqrt(Math.max(0, estimate.systematicCents ** 2 - estimate.bendCents ** 2));
    const passing = Math.hypot(estimate.bendCents, estimate.suddenCents);
    const measured = estimate.sigmaCents ** 2 + strayNews * estimate.systematicCents ** 2;
    const passed = held === null ? 0 : atSeconds - held.atSeconds;
    const wander = wanderCents + wanderPluckedCents * Math.exp(-sincePluckSeconds / pluckedSeconds);
    const before = held === null ? Infinity : held.variance + (wander ** 2 + (strayWander * estimate.systematicCents) ** 2) * passed;
    const glide = estimate.moving > 0.5 ? 0 : estimate.driftCentsPerSecond * passed;
    const foreseen = held === null ? estimate.hertz : shifted(held.hertz, glide);
    const apart = centsApart(estimate.hertz, foreseen);
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
          hertz: foreseen,
          sigmaCents: Math.sqrt(before + (doubtPerSecond * passed) ** 2),
          steady: false,
        };
      }
      held = {
        hertz: estimate.hertz,
        variance: measured,
        noise: estimate.sigmaCents ** 2 - byStiffness,
        lag: 0,
        stray,
        passing,
        surprise: held?.surprise ?? usualSurprise,
        atSeconds,
        sinceSeconds: atSeconds,
      };
      rival = null;
      return candid(estimate, { ...held, sigmaCents: estimate.sigmaCents, sincePluckSeconds });
    }
    rival = null;
    // Of this stretch only the newest `passed` seconds are news.
    const news = measured * Math.max(1, (lookShare * estimate.seconds) / Math.max(1e-3, passed));
    const gain = before / (before + news);
    const memory = ((gain * estimate.seconds) / Math.max(1e-3, passed)) ** 2;
    const own = estimate.sigmaCents ** 2 - byStiffness;
    const kept = (1 - gain) ** 2 * (held.noise + usualWanderCents ** 2 * passed);
    const surpriseShare = 1 - Math.exp(-passed / surpriseSeconds);
    const together = shared(atSeconds - held.sinceSeconds, estimate.seconds);
    held = {
      hertz: shifted(foreseen, gain * apart),
      variance: (1 - gain) * before,
      noise: Math.max((own * memory) / (memory + telescope), kept + 2 * gain * (1 - gain) * together * Math.sqrt(held.noise * own)),
      lag: (1 - gain) * (held.lag + lagSpread * glideDrift * Math.exp(-sincePluckSeconds / glideSeconds) * passed),
      stray: (1 - gain) * held.stray + gain * stray,
      passing: (1 - gain) * held.passing + gain * passing,
      surprise:
        held.surprise + surpriseShare * (Math.min(surpriseAtMost, ((1 - gain) * apart) ** 2 / estimate.sigmaCents ** 2) - held.surprise),
      atSeconds,
      sinceSeconds: held.sinceSeconds,
    };
    const sigmaCents = Math.sqrt(held.noise + held.lag ** 2 + byStiffness);
    const { surprise } = held;
    return sigmaCents < estimate.sigmaCents
      ? candid({ ...estimate, hertz: held.hertz, suddenCents: 0 }, { ...held, sigmaCents, sincePluckSeconds })
      : candid(estimate, { stray, passing, surprise, sigmaCents: estimate.sigmaCents, sincePluckSeconds });
  };

  return {
    settle,
    restart: () => {
      held = rival = null;
    },
  };
};
