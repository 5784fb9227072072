import type { Remains } from './background.ts';
import { createRefiner } from './refine.ts';
import type { Fit, Stiffness } from './series.ts';
import { createSpectrometer, type Powers, type Spectrum } from './spectrum.ts';
import type { Strays } from './stray.ts';
import { centsApart, shifted } from './string.ts';

/** The pitch of a string now: at the newest sample that was taken. */
export type Estimate = Fit & {
  /** Probability that the pitch is moving: a glide after a hard pluck, or a turning peg. */
  moving: number;
  /** The drift as measured, before it is shrunk towards rest. */
  rawDrift: number;
  /** How fast it may still move although it seems to rest, having moved just before, in cents per second. */
  lingering: number;
  /** The slowest drift seen of this pluck, with two standard errors, in cents per second. */
  slowest: number;
  steady: boolean;
  /** The part of `systematicCents` that comes from a pitch that does not move evenly; the rest is the partials' straying. */
  bendCents: number;
  /** Error by a sudden change of speed, as when a peg is let go, in cents. */
  suddenCents: number;
  /** Length of the stretch it rests on, in seconds. */
  seconds: number;
  /** Which of the stretches to begin with next time: the shortest one with something to say. */
  beginWith: number;
};

/** Stretches measured, in samples at the working rate: about 53, 107, 213 and 427 ms. Each with its own transform, 1.6 times as long. */
const stretches = [640, 1280, 2560, 5120] as const;
const [shortest, short] = stretches;
/**
 * Standard deviations of a resting and of a moving string's drift, in cents per second. A string just plucked glides down to its rest
 * (its tension is raised as the square of its amplitude): a typical pluck by a cent, give or take two, with a time constant of 0.15 s.
 */
const restingDrift = 0.02;
export const glideDrift = 6;
const glideSpread = 1.2;
export const glideSeconds = 0.15;
const movingDrift = 45;
const leastMovingDrift = 1;
/** A string that seems to have come to rest may still move by what it last did, less from one measurement to the next. */
const lingers = 0.9;
/** That a string may move counts as an error only where it is likelier than this: two standard errors need not cover what is rarer. */
const leastDoubt = 0.03;
/** Probability that a string at rest begins to move from one measurement to the next. */
const movingUnasked = 0.004;
/**
 * A glide is not straight. Where it falls with time constant τ, a line through the middle of t seconds ends 0.11/τ · drift · t² below it
 * (variance of the Hann window, (1/12 − 1/2π²)t², against t²/4). τ is about 0.18 s, or the glide would be over: a third of `since`.
 * What is left of it errs by about as much again; less where a peg is turned evenly, whose changes of speed are seen (`suddenCents`).
 */
const glideBend = 0.11;
const glideBendSeconds = 0.18;
const bendError = 0.25;
const bendErrorTurning = 0.04;
/** … and as much as it may be, for telling a voice from a string. */
const bendErrorAtMost = 0.16;
/** So long after a pluck a falling pitch is taken for its glide. */
const glideAtMostSeconds = 1.5;
/** … and no glide gets faster than this against the slowest that it was: that is a peg turned down. */
const quickenAtMost = 1.3;
/** The fitted slope takes a stretch to follow a change of speed: for each cent per second that it changed by in the last hop, the pitch errs by so much (measured with the pitch bench). */
const suddenSeconds = 0.1;
/** … where it gets faster, which is over sooner. */
const suddenBeginSeconds = 0.03;
/** With this error the longest stretch is measured as well. */
const wantedSigmaCents = 0.06;
/** … every so many times: it is the costliest, and half of it was heard the last time. */
const longestEvery = 2;
/** Only a string whose strongest partial stands this little above the noise (power, per bin) needs the longest stretch to be heard at all. */
export const faintRatio = 60;
/** … and one that stood so little above it a hop ago may not be heard in a shorter one. */
const fadingRatio = 120;

/** Where the string was a hop ago; what it rested on is missing where nothing was followed. */
export type Guess = {
  hertz: number;
  moving: number;
  beginWith: number;
  driftCentsPerSecond?: number;
  rawDrift?: number;
  seconds?: number;
  ratio?: number;
  slowest?: number;
  lingering?: number;
};

/**
 * Error by a change of speed that the fitted slope has not followed yet, in cents, from how much the slope changed since the last hop beyond its
 * error (half of which is shared): a peg just taken hold of may have been turned by as much as the slope of the whole stretch says; one let go
 * is foretold to go on.
 */
const suddenChange = (fit: Fit, guess: Guess, moving: number, stretchSeconds: number): number => {
  const { driftCentsPerSecond: drift, sigmaDrift } = fit;
  const { rawDrift: before } = guess;
  if (Math.max(moving, guess.moving) < 0.5 || before === undefined) return 0;
  const began = guess.moving < 0.5 ? Math.abs(drift) * stretchSeconds : 0;
  const change = Math.sqrt(Math.max(0, (drift - before) ** 2 - sigmaDrift ** 2 / 2));
  return Math.max(began, (Math.abs(drift) > Math.abs(before) ? suddenBeginSeconds : suddenSeconds) * change);
};

const normalDensity = (value: number, variance: number) => Math.exp((-0.5 * value * value) / variance) / Math.sqrt(variance);

/** What is usual for a string that moves: about as fast as it did a hop ago. */
const usualDrift = ({ moving, driftCentsPerSecond }: Guess) =>
  moving > 0.5 && driftCentsPerSecond !== undefined
    ? Math.min(movingDrift, Math.max(leastMovingDrift, 2 * Math.abs(driftCentsPerSecond)))
    : movingDrift;

/** Probability of moving, given a measured drift and what was thought before. */
const movingGiven = (fit: Fit, before: number, glide: number, resting: number, usual: number) => {
  const variance = fit.sigmaDrift ** 2;
  const moving = before * normalDensity(fit.driftCentsPerSecond, variance + usual ** 2);
  const still = (1 - before) * normalDensity(fit.driftCentsPerSecond + glide, variance + resting ** 2);
  return moving / (moving + still + 1e-300);
};

/**
 * Follows one string: fits it to stretches of several lengths that end now, and keeps the longest that agrees with the shorter ones
 * (intersection of confidence intervals: A. Goldenshluger and A. Nemirovski, Math. Methods Statist. 6, 1997). A stretch sees the pitch
 * at its middle; the drift measured in it, shrunk towards rest, brings it to the newest sample, so that a turning peg is not seen late.
 * `delaySeconds`: how far the samples it is given lag behind that.
 */
export const createFollower = (rateHertz: number, remains: Remains | null = null, delaySeconds = 0) => {
  const spectrometers = stretches.map((length) => ({ length, ...createSpectrometer(nextPower(1.6 * length), rateHertz) }));
  const refine = createRefiner(remains);
  let calls = 0;
  // Once over silence, so that the first pluck does not wait until the machine has compiled its transforms.
  const silence = new Float64Array(Math.max(...stretches));
  for (const { length, spectrumOf: transform } of spectrometers) transform(silence, 0, length);

  const fittingTo = (length: number) => {
    const fitting = spectrometers.find((entry) => entry.length >= length) ?? spectrometers[spectrometers.length - 1];
    if (fitting === undefined) throw new RangeError('no spectrometer');
    return fitting;
  };
  const spectrumOf = (samples: Float64Array, end: number, length: number, spacingHertz?: number): Spectrum =>
    fittingTo(length).spectrumOf(samples, end - length, length, spacingHertz);
  const powersOf = (samples: Float64Array, end: number, length: number): Powers =>
    fittingTo(length).powersOf(samples, end - length, length);

  /** `since`: seconds since the pluck. */
  const atEnd = (fit: Fit, length: number, guess: Guess, before: number, since: number): Estimate => {
    const seconds = length / rateHertz / 2;
    const ahead = seconds + delaySeconds;
    const glide = glideDrift * Math.exp(-(since - seconds) / glideSeconds);
    const resting = restingDrift + glideSpread * glide;
    const moving = movingGiven(fit, before, glide, resting, usualDrift(guess));
    const noise = fit.sigmaDrift ** 2;
    const gainMoving = movingDrift ** 2 / (movingDrift ** 2 + noise);
    const lingering = guess.moving > 0.5 ? Math.abs(guess.driftCentsPerSecond ?? 0) : lingers * (guess.lingering ?? 0);
    const restingVariance = resting ** 2 + lingering ** 2;
    const gainResting = restingVariance / (restingVariance + noise);
    const driftMoving = gainMoving * fit.driftCentsPerSecond;
    const driftResting = gainResting * (fit.driftCentsPerSecond + glide) - glide;
    const drift = moving * driftMoving + (1 - moving) * driftResting;
    // The error of a drift of either kind, and of not knowing which it is.
    const doubt = Math.max(0, moving - leastDoubt);
    const apart = doubt * (1 - moving) * (driftMoving - driftResting) ** 2;
    const left = doubt * gainMoving * noise + (1 - moving) * gainResting * noise + apart;
    const slowest = guess.slowest ?? Infinity;
    const square = Math.abs(drift) * (2 * seconds) ** 2;
    const glides = drift < 0 && since < glideAtMostSeconds && -drift < quickenAtMost * slowest;
    const bend = glides ? (glideBend / Math.max(glideBendSeconds, since / 3)) * square : 0;
    const bendCents = (moving > 0.5 && !glides ? bendErrorTurning : bendError) * square;
    return {
      ...fit,
      hertz: shifted(fit.hertz, drift * ahead + bend),
      sigmaCents: Math.sqrt(fit.sigmaCents ** 2 + left * ahead ** 2),
      sigmaAtMostCents: Math.hypot(fit.sigmaAtMostCents, Math.sqrt(left) * ahead, bendErrorAtMost * square),
      driftCentsPerSecond: drift,
      moving,
      rawDrift: fit.driftCentsPerSecond,
      lingering,
      slowest: Math.min(slowest, Math.abs(fit.driftCentsPerSecond) + 2 * fit.sigmaDrift),
      bendCents,
      systematicCents: Math.hypot(fit.systematicCents, bendCents),
      steady: moving < 0.5 && Math.abs(drift) < 3,
      suddenCents: glides ? 0 : suddenChange(fit, guess, moving, 2 * seconds),
      seconds: 2 * seconds,
      beginWith: 1,
    };
  };

  /** `usable`: how many of the newest samples belong to this pluck. Null where no string near `guess.hertz` sounds. */
  const follow = (
    samples: Float64Array,
    end: number,
    usable: number,
    guess: Guess,
    stiffness: Stiffness,
    strays: Strays | null = null,
  ): Estimate | null => {
    // A stretch must hold a few periods, or the partials run into one another.
    const period = rateHertz / guess.hertz;
    if (usable < Math.ceil(4 * period)) return null;
    calls++;
    const before = Math.min(0.9, movingUnasked + 0.85 * guess.moving);
    const measure = (length: number, hertz: number) => {
      const size = Math.min(usable, Math.max(length, Math.ceil(6 * period)));
      const fit = refine(spectrumOf(samples, end, size, hertz), hertz, stiffness, strays);
      return fit === null ? null : { estimate: atEnd(fit, size, guess, before, usable / rateHertz), fit };
    };
    const quick = guess.moving > 0.7 && guess.beginWith === 1 && usable > shortest;
    let index = quick ? 1 : guess.beginWith;
    let first = measure(quick ? Math.round(0.75 * short) : (stretches[index] ?? short), guess.hertz);
    // A string that fades into noise is still heard in longer stretches.
    const lastTried = (guess.ratio ?? Infinity) < fadingRatio && guess.moving < 0.5 ? stretches.length - 1 : index;
    while (first === null && index < lastTried && usable >= 0.75 * (stretches[index + 1] ?? 0))
      first = measure(stretches[++index] ?? 0, guess.hertz);
    if (first === null) return null;
    let best = first;
    const error = first.fit.sigmaCents;
    const beginAtMost = first.fit.ratio < faintRatio ? 3 : 2;
    const beginWith = Math.min(beginAtMost, Math.max(1, error > 1 ? index + 1 : error < 0.3 ? index - 1 : index));
    for (index++; index < stretches.length; index++) {
      const length = stretches[index] ?? 0;
      if (usable < 0.75 * length || best.estimate.moving > 0.6) break;
      if (index === 3 && (best.estimate.sigmaCents < wantedSigmaCents || calls % longestEvery !== 0)) break;
      const next = measure(length, best.fit.hertz);
      if (next === null) break;
      const apart = Math.abs(centsApart(next.estimate.hertz, first.estimate.hertz));
      if (apart > 0.02 + 2.5 * Math.hypot(next.estimate.sigmaCents, first.estimate.sigmaCents)) break;
      if (next.estimate.sigmaCents > best.estimate.sigmaCents) break;
      best = next;
    }
    return { ...best.estimate, beginWith };
  };

  return { powersOf, spectrumOf, follow };
};

const nextPower = (value: number) => 2 ** Math.ceil(Math.log2(value));
