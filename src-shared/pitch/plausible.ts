import type { Estimate } from './follow.ts';
import { mainsPartialOf } from './mains.ts';
import { centsPerRatio } from './string.ts';

/** A string loses its sound at least this fast (60 dB in 20 s) and, once plucked, does not swell. */
const slowestDecay = 0.35;
const swellAtMost = 0.7;
const dampedAtMost = 40;
/** A fresh string's strongest partial stands this far above the noise in its bin (power); peaks of noise alone reach 15. */
const clearRatio = 80;
/** A plucked string glides down and a peg may be turned, in cents per second; a voice slides faster. */
const riseAtMost = 150;
const fallAtMost = 350;
const restingSlideAtMost = 10;
const driftChangeAtMost = 25;
/** Errors below this tell nothing; a hard pluck's glide; and no hop alone is proof: hops overlap. */
const leastErrorCents = 0.05;
const glideAtFirst = 120;
const glideSeconds = 0.15;
const evidenceAtMost = 3;

/** Error of the decay rate: the real part of the same unknown whose imaginary part is the frequency. */
const sigmaDecay = ({ sigmaAtMostCents, hertz }: Estimate) => (2 * Math.PI * hertz * sigmaAtMostCents * Math.LN2) / 1200;

/** Mains hum stands on the mains' frequencies and does not die away. */
export const isHum = (estimate: Estimate): boolean =>
  mainsPartialOf(estimate.hertz) !== null && estimate.decayPerSecond < slowestDecay + 2 * sigmaDecay(estimate);

/** … from its first or second partial on, as it does where no string sounds, and surely does not die away: beats may hold up a string for a while. */
export const isSurelyHum = (estimate: Estimate): boolean =>
  (mainsPartialOf(estimate.hertz)?.partial ?? Infinity) <= 2 && estimate.decayPerSecond < slowestDecay - 2 * sigmaDecay(estimate);

/** Whether a sound that began with a pluck goes on like a string: it does not swell and does not slide like a voice. */
export const soundsPlucked = (estimate: Estimate): boolean =>
  estimate.ratio > clearRatio &&
  estimate.decayPerSecond > -swellAtMost - 2.5 * sigmaDecay(estimate) &&
  estimate.decayPerSecond < dampedAtMost &&
  estimate.rawDrift < riseAtMost + 2 * estimate.sigmaDrift &&
  estimate.rawDrift > -fallAtMost - 2 * estimate.sigmaDrift;

/** Whether a sound whose beginning was not heard is a string ringing on: it dies away and keeps its pitch. */
export const ringsAlone = (estimate: Estimate): boolean =>
  estimate.ratio > clearRatio &&
  estimate.decayPerSecond > slowestDecay + sigmaDecay(estimate) &&
  Math.abs(estimate.rawDrift) < restingSlideAtMost + estimate.sigmaDrift;

/**
 * How much more likely a hop is a plucked string's than a voice's, as the natural log of the likelihood ratio: weights by logistic regression
 * (D. Cox, J. R. Statist. Soc. B 20, 1958) on the plucks of the pitch bench against invented and synthesised talk. A string's partials keep
 * step with one another, do not slide but for the glide of the pluck, do not swell, and are most of what sounds; and it lies among those that
 * may sound. `score`: how well it accounts for the peaks, 0…1 (see coarse.ts); `octavesAway`: from the nearest string that may sound;
 * `slideOnTheWhole`: cents per second over the hops before, Infinity while they are few.
 */
export const evidenceOfString = (
  { hertz, sigmaAtMostCents, systematicCents, rawDrift, decayPerSecond }: Estimate,
  score: number,
  octavesAway: number,
  sincePluckSeconds: number,
  slideOnTheWhole: number,
): number => {
  const hertzOfError = (hertz / centsPerRatio) * Math.hypot(sigmaAtMostCents, systematicCents, leastErrorCents);
  const glide = glideAtFirst * Math.exp(-sincePluckSeconds / glideSeconds);
  const slide = Math.min(slideOnTheWhole, rawDrift < 0 ? Math.max(0, -rawDrift - glide) : rawDrift);
  const swell = Math.min(30, Math.max(0, -decayPerSecond));
  const evidence = 7.1 * Math.min(0.9, score) - 4.1 - 1.3 * Math.log10(hertzOfError) - 4.4 * Math.log10(1 + slide / 10) - 0.21 * swell;
  return Math.min(evidenceAtMost, evidence - 1.5 * Math.min(2, octavesAway));
};

/** Whether two measurements of a moment apart are of one drift: a voice's changes all the time. */
export const driftGoesOn = (before: Estimate, now: Estimate): boolean =>
  Math.abs(now.rawDrift - before.rawDrift) < driftChangeAtMost + 2 * Math.hypot(now.sigmaDrift, before.sigmaDrift);
