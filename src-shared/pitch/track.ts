import { createBackground } from './background.ts';
import { createCoarse } from './coarse.ts';
import { createConditioner, historySamples, levelDecibels } from './condition.ts';
import { createFollower, type Estimate } from './follow.ts';
import { createStiffnessMemory } from './memory.ts';
import { driftGoesOn, isHum, ringsAlone, soundsPlucked } from './plausible.ts';
import { createRest } from './rest.ts';
import { createOnsetDetector } from './onset.ts';
import { createPeakFinder } from './peaks.ts';
import { centsApart, stiffRatio } from './string.ts';
import { createTwinFinder } from './twins.ts';
import type { Hint, PitchEvent, PitchFrame, PitchTracker, RefusalReason, StringPitch } from './types.ts';

const hopSeconds = 0.01;
/** After this time a settled note is measured every other hop. */
const restlessSeconds = 0.25;
const gateDecibels = -80;
/** The first milliseconds of a pluck are finger and plectrum. */
const attackSeconds = 0.006;
const earliestSeconds = 0.03;
const searchSamples = 2_560;
/** How well a string must account for the peaks before it is believed, and how long without a pluck heard. */
const scoreAtLeast = 0.45;
const unpluckedSeconds = 0.3;
/** Hops that must agree after a pluck; more where no string was found at once. */
const agreedAtLeast = 3;
const agreedLate = 6;
const lateSeconds = 0.09;
/** Background is learnt from this many samples at most and at least, up to a moment before the pluck. */
const backgroundSamples = 3_072;
const leastBackgroundSamples = 1_200;
const marginSeconds = 0.014;
const longestSamples = 8_000;
/** So much of a new sound tells whether the string before it rings on; after so long without a string the pluck came to nothing. */
const ringingSeconds = 0.042;
/** For so long after a pluck it must go on like a string. */
const probationSeconds = 0.14;
/** For so long after a pluck any other string may turn out to be the right one. */
/** How often the strings of a double course are looked for. */
const twinSeconds = 0.25;
const freshSeconds = 0.5;
/** A lost string is taken up again within this many cents. */
const strayAtMost = 2.5;
const givenUpSeconds = 0.14;
/** How much the error of a foretold pitch grows, in cents per second. */
const foretoldDoubt = 5;
/** Errors are a little larger than the fit says, and never nothing: measured with the pitch bench. */
const sigmaScale = 1.15;
const leastSigmaCents = 0.003;
const clippedShareAtMost = 0.12;

/** What the search has come to believe so far. */
type Belief = { estimate: Estimate; sinceCount: number; agreed: number };

/** The string followed before the last pluck; `ringsOn` is null until that can be told. */
type Before = { estimate: Estimate; pluckedAt: number | null; ringsOn: boolean | null };

/** See index.ts. */
export const createPitchTracker = ({ sampleRateHertz, hint = null }: { sampleRateHertz: number; hint?: Hint | null }): PitchTracker => {
  const conditioner = createConditioner(sampleRateHertz);
  const { state } = conditioner;
  const { rateHertz } = state;
  const onsets = createOnsetDetector(rateHertz);
  const findPeaks = createPeakFinder();
  const searchFor = createCoarse(rateHertz);
  const follower = createFollower(rateHertz);
  const findTwins = createTwinFinder(rateHertz);
  const memory = createStiffnessMemory();
  const rest = createRest();
  const background = createBackground(rateHertz, historySamples);
  const hop = Math.round(hopSeconds * rateHertz);
  let expected = hint;
  let pluckedAt: number | null = null;
  let belief: Belief | null = null;
  let current: Estimate | null = null;
  let before: Before | null = null;
  /** The string of this pluck that was lost under another sound. */
  let strayed: Estimate | null = null;
  let twins: StringPitch[] | null = null;
  let twinsAt = 0;
  let humming = false;
  let lost = 0;
  let checkedAt = 0;
  let doubts = 0;

  const forget = () => {
    belief = null;
    current = null;
    lost = doubts = 0;
  };

  const search = (usable: number) => {
    const length = Math.min(usable, searchSamples);
    const spectrum = follower.spectrumOf(background.clean, state.end, length);
    return searchFor(findPeaks(spectrum), background.clean, state.end, length, expected);
  };

  const refusal = (reason: RefusalReason): PitchEvent => ({
    kind: 'refusal',
    atSeconds: state.endSeconds,
    reason,
  });

  /** The other strings of a double course, looked for now and then once the note has rung for a while. */
  const twinsOf = (estimate: Estimate): StringPitch[] | null => {
    const since = pluckedAt === null ? 0 : state.count - pluckedAt;
    if (state.count - twinsAt > twinSeconds * rateHertz || state.count < twinsAt) {
      twinsAt = state.count;
      twins = findTwins(background.clean, state.end, since - Math.round(attackSeconds * rateHertz), estimate.hertz, expected);
    }
    return twins;
  };

  const frame = (estimate: Estimate): PitchEvent => {
    const [nearest, ...others] = twinsOf(estimate) ?? [];
    return { ...single(estimate), ...nearest, others };
  };

  const single = (estimate: Estimate): PitchFrame => ({
    kind: 'frame',
    atSeconds: state.endSeconds,
    hertz: estimate.hertz,
    sigmaCents: sigmaScale * Math.hypot(estimate.sigmaCents, estimate.systematicCents, leastSigmaCents),
    others: [],
    levelDecibels: levelDecibels(state, 0.05),
    sincePluckSeconds: pluckedAt === null ? null : (state.count - pluckedAt) / rateHertz,
    steady: estimate.steady,
    driftCentsPerSecond: estimate.driftCentsPerSecond,
    inharmonicity: estimate.stiffness.inharmonicity,
  });

  /** Looks for a string, hop by hop, until two hops agree after a pluck, or many without one. */
  const lookFor = (usable: number): Estimate | null => {
    humming = false;
    const found = search(usable);
    const other = found !== null && found.score > scoreAtLeast && strayed !== null && Math.abs(centsApart(found.hertz, strayed.hertz)) > 60;
    if (other && pluckedAt !== null && state.count - pluckedAt > freshSeconds * rateHertz) return null;
    if (strayed !== null && !other) {
      const again = follower.follow(background.clean, state.end, usable, strayed, memory.recall(strayed.hertz));
      if (again !== null && Math.abs(centsApart(again.hertz, strayed.hertz)) < strayAtMost && again.sigmaCents < strayAtMost) {
        strayed = null;
        return again;
      }
    }
    if (found === null || found.score < scoreAtLeast) {
      belief = null;
      return null;
    }
    const estimate = follower.follow(
      state.samples,
      state.end,
      usable,
      { hertz: found.hertz, moving: 0.1, beginWith: 1 },
      memory.recall(found.hertz),
    );
    if (estimate === null || Math.abs(centsApart(estimate.hertz, found.hertz)) > 80) {
      belief = null;
      return null;
    }
    humming = isHum(estimate);
    if (humming || !(pluckedAt === null ? ringsAlone(estimate) : soundsPlucked(estimate))) {
      belief = null;
      return null;
    }
    const reach = (pluckedAt === null ? 2 : 4) + 3 * estimate.sigmaCents;
    const goesOn =
      belief !== null && Math.abs(centsApart(estimate.hertz, belief.estimate.hertz)) < reach && driftGoesOn(belief.estimate, estimate);
    belief =
      goesOn && belief !== null ? { ...belief, estimate, agreed: belief.agreed + 1 } : { estimate, sinceCount: state.count, agreed: 1 };
    const late = pluckedAt !== null && state.count - pluckedAt > lateSeconds * rateHertz + (8 * rateHertz) / estimate.hertz;
    const enough =
      pluckedAt === null
        ? state.count - belief.sinceCount >= unpluckedSeconds * rateHertz
        : belief.agreed >= (late ? agreedLate : agreedAtLeast);
    return enough ? estimate : null;
  };

  /** Every so often: is it still this string, and not its octave or another one? */
  const stillRight = (usable: number, estimate: Estimate): boolean => {
    // Later nothing is put right: another string needs a pluck of its own, and a dying note shows its octave.
    if (state.count - (pluckedAt ?? 0) > freshSeconds * rateHertz || state.count - checkedAt < 0.06 * rateHertz) return true;
    checkedAt = state.count;
    const found = search(usable);
    const differs = found !== null && found.score > scoreAtLeast && Math.abs(centsApart(found.hertz, estimate.hertz)) > 60;
    doubts = differs ? doubts + 1 : 0;
    return doubts < 3;
  };

  /** A pluck was heard: what rang until now becomes background, the string followed among it. */
  const takeAsBackground = (onset: number) => {
    const back = state.count - onset + Math.round(marginSeconds * rateHertz);
    const heardFor = onset - (pluckedAt ?? 0) - Math.round(attackSeconds * rateHertz);
    const length = Math.min(backgroundSamples, heardFor, state.end - back);
    before = current === null ? null : { estimate: current, pluckedAt, ringsOn: null };
    pluckedAt = onset;
    strayed = null;
    twins = null;
    const followed = current;
    forget();
    if (length < leastBackgroundSamples) return;
    const isTarget = (hertz: number) => {
      if (followed === null) return false;
      const partial = Math.round(hertz / followed.hertz);
      const expected = followed.hertz * stiffRatio(partial, followed.stiffness.inharmonicity);
      return partial > 0 && Math.abs(hertz - expected) < Math.max(2, 0.004 * expected);
    };
    const spectrum = follower.spectrumOf(state.samples, state.end - back, length);
    background.learn(state.samples, back, length, spectrum, isTarget);
  };

  /** After a pluck: does the string followed before it ring on, or is it the one that was plucked? False where it must first be heard longer. */
  const knowsWhatRings = (usable: number): boolean => {
    if (before === null || before.ringsOn !== null) return true;
    if (usable < ringingSeconds * rateHertz) return false;
    before.ringsOn = background.targetRingsOn(usable);
    if (before.ringsOn !== true) {
      background.releaseTarget(state.samples, state.count - (pluckedAt ?? 0));
      strayed = { ...before.estimate, beginWith: 1, moving: 0 };
      before = null;
    }
    return true;
  };

  /** The string before, which rings on as foretold: its own phase confirms its pitch while another sound is looked at. */
  const foretold = (estimate: Estimate, since: number): Estimate => ({
    ...estimate,
    sigmaCents: Math.hypot(estimate.sigmaCents, (foretoldDoubt * since) / rateHertz),
  });

  /** The pluck came to nothing and the string before it rings on: it was another sound. */
  const returnToBefore = () => {
    if (before === null) return;
    background.releaseTarget(state.samples, Math.min(state.end, longestSamples));
    current = before.estimate;
    pluckedAt = before.pluckedAt;
    before = null;
  };

  const listen = (): PitchEvent | null => {
    const since = pluckedAt === null ? state.count : state.count - pluckedAt;
    const settled = current !== null && current.steady && since > restlessSeconds * rateHertz;
    if (settled && state.count % (2 * hop) !== 0) return null;
    if (levelDecibels(state, 0.03) < gateDecibels) {
      forget();
      pluckedAt = strayed = null;
      return refusal('silence');
    }
    if (conditioner.clippedShare() > clippedShareAtMost) return refusal('clipped');
    const usable = Math.min(since - (pluckedAt === null ? 0 : Math.round(attackSeconds * rateHertz)), state.end);
    if (usable < earliestSeconds * rateHertz || !knowsWhatRings(usable)) return refusal('attack');
    if (current === null) {
      current = lookFor(usable);
      if (current === null && before !== null && since > givenUpSeconds * rateHertz) returnToBefore();
      if (current === null && before?.ringsOn === true && background.targetRingsOn(usable) === true)
        return frame(foretold(before.estimate, since));
      if (current === null && humming) return refusal('hum');
      if (current === null) return refusal(pluckedAt !== null && since < 0.15 * rateHertz ? 'attack' : 'unclear');
      memory.learn(current);
      rest.restart();
      return frame(rest.settle(current, state.endSeconds) ?? current);
    }
    const next = follower.follow(background.clean, state.end, usable, current, memory.recall(current.hertz));
    const onProbation = pluckedAt !== null && since < probationSeconds * rateHertz;
    if (next === null || Math.abs(centsApart(next.hertz, current.hertz)) > 40 || (onProbation && !soundsPlucked(next))) {
      if (++lost >= 4) {
        strayed = { ...current, beginWith: 2, moving: 0 };
        forget();
      }
      return refusal('unclear');
    }
    lost = 0;
    if (!stillRight(usable, next)) {
      forget();
      return refusal('unclear');
    }
    memory.learn(next);
    const shown = rest.settle(next, state.endSeconds);
    if (shown === null) return refusal('two sounds');
    current = shown;
    return frame(current);
  };

  const push = (samples: Float32Array): PitchEvent[] => {
    const events: PitchEvent[] = [];
    for (let index = 0; index < samples.length; index++) {
      if (!conditioner.take(samples[index] ?? 0)) continue;
      background.append(state.samples, state.end);
      const plucked = onsets.hear(state.samples, state.end, state.count);
      if (plucked !== null) takeAsBackground(plucked);
      if (state.count % hop !== 0) continue;
      const event = listen();
      if (event !== null) events.push(event);
    }
    return events;
  };

  const reset = () => {
    conditioner.reset();
    onsets.reset();
    memory.forget();
    background.reset();
    before = strayed = null;
    forget();
    pluckedAt = null;
    checkedAt = twinsAt = 0;
    twins = null;
  };

  return {
    push,
    reset,
    expect: (next) => {
      expected = next;
    },
  };
};
