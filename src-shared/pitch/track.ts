import { createBackground } from './background.ts';
import { createConditioner, historySamples, levelDecibels } from './condition.ts';
import { createFollower, type Estimate } from './follow.ts';
import { createHandover } from './handover.ts';
import { createHold } from './hold.ts';
import { createStiffnessMemory } from './memory.ts';
import { createOnsetDetector } from './onset.ts';
import { isSurelyHum, soundsPlucked } from './plausible.ts';
import { createRest } from './rest.ts';
import { createSearch, humShowsSeconds } from './search.ts';
import { createStrays } from './stray.ts';
import { centsApart } from './string.ts';
import { createStrikeJudge, riseAtLeast } from './struck.ts';
import { createTwinFinder } from './twins.ts';
import type { Hint, PitchEvent, PitchFrame, PitchTracker, RefusalReason, StringPitch } from './types.ts';

const hopSeconds = 0.01;
/** After this time a settled note is measured every other hop. */
const restlessSeconds = 0.25;
const gateDecibels = -80;
/** Up to this share of cut-off samples the partials keep their pitch (measured with the pitch bench). */
const clippedShareAtMost = 0.4;
/** The first milliseconds of a pluck are finger and plectrum; a little more must be heard before anything is measured. */
const attackSeconds = 0.006;
const earliestSeconds = 0.03;
const attackAtMostSeconds = 0.15;
/** For so long after a pluck it must go on like a string; after so long without a string the pluck came to nothing. */
const probationSeconds = 0.14;
const givenUpSeconds = 0.14;
/** A string that leaps further than this from one hop to the next, or is not heard for so many hops, is lost. */
const leapCents = 40;
const lostHops = 4;
/** So early in the stream a string may have been plucked just before. */
const openingSeconds = 0.2;
/** A measurement with so large an error tells nothing of a string that was known well. */
const vagueCents = 3;
/** How often the strings of a double course are looked for. */
const twinSeconds = 0.25;
/** An error is never nothing. */
const leastSigmaCents = 0.0002;

/** See index.ts. */
export const createPitchTracker = ({ sampleRateHertz, hint = null }: { sampleRateHertz: number; hint?: Hint | null }): PitchTracker => {
  const conditioner = createConditioner(sampleRateHertz);
  const { state } = conditioner;
  const { rateHertz } = state;
  const onsets = createOnsetDetector(rateHertz);
  const background = createBackground(rateHertz, historySamples);
  const follower = createFollower(rateHertz, background.remains, state.delaySeconds);
  const memory = createStiffnessMemory();
  const rest = createRest();
  const strays = createStrays();
  const search = createSearch(state, background.clean, follower, memory);
  const strike = createStrikeJudge(state, background.clean);
  const handover = createHandover(state, follower, background);
  const hold = createHold(state, background.clean, follower);
  const findTwins = createTwinFinder(rateHertz);
  const hop = Math.round(hopSeconds * rateHertz);
  const attack = Math.round(attackSeconds * rateHertz);
  let expected = hint;
  search.expect(hint);
  /** Count of the working sample at which the note began, and the string followed. */
  let pluckedAt: number | null = null;
  let current: Estimate | null = null;
  let lost = 0;
  let twins: StringPitch[] | null = null;
  let twinsAt = 0;

  const sincePluck = () => (pluckedAt === null ? null : state.count - pluckedAt);

  const forget = () => {
    search.forget();
    hold.forget();
    current = null;
    lost = 0;
  };

  const refusal = (reason: RefusalReason): PitchEvent => ({ kind: 'refusal', atSeconds: state.endSeconds, reason });

  /** The strings of a double course, looked for now and then once the note has rung for a while. */
  const twinsOf = (estimate: Estimate): StringPitch[] | null => {
    if (state.count - twinsAt > twinSeconds * rateHertz) {
      twinsAt = state.count;
      twins = findTwins(background.clean, state.end, (sincePluck() ?? 0) - attack, estimate.hertz, expected);
    }
    return twins;
  };

  const frame = (estimate: Estimate): PitchFrame => {
    const since = sincePluck();
    const [nearest, ...others] = twinsOf(estimate) ?? [];
    return {
      kind: 'frame',
      atSeconds: state.endSeconds,
      hertz: estimate.hertz,
      sigmaCents: Math.hypot(estimate.sigmaCents, estimate.systematicCents, estimate.suddenCents, leastSigmaCents),
      levelDecibels: levelDecibels(state, 0.05),
      sincePluckSeconds: since === null ? null : since / rateHertz,
      steady: estimate.steady,
      driftCentsPerSecond: estimate.driftCentsPerSecond,
      inharmonicity: estimate.stiffness.inharmonicity,
      ...nearest,
      others,
    };
  };

  const onPluck = (onset: number) => {
    handover.pluck(onset, onset - (pluckedAt ?? 0) - attack, current === null ? null : { estimate: current, pluckedAt });
    forget();
    search.forgetAll();
    twins = null;
    strike.onset(onset);
    pluckedAt = onset;
  };

  /** No string is followed: looks for one. */
  const lookFor = (usable: number, since: number): PitchEvent => {
    // A stream that begins in the middle of a pluck: nobody heard its beginning, but it is looked at as one.
    const opening = pluckedAt === null && state.count < openingSeconds * rateHertz;
    const rise = opening ? riseAtLeast : strike.rise();
    current = search.lookFor(usable, rise === null ? null : { samplesAgo: sincePluck() ?? state.count, rise }, background.knows);
    if (current !== null) {
      handover.finish(current);
      memory.learn(current);
      rest.restart();
      strays.forget();
      return frame(rest.settle(current, state.endSeconds, usable / rateHertz) ?? current);
    }
    handover.reconsider(usable, null);
    if (since > givenUpSeconds * rateHertz) {
      const back = handover.giveBack();
      if (back !== null) {
        current = back.estimate;
        pluckedAt = back.pluckedAt;
      }
    }
    const foretold = handover.foretold(usable, since);
    if (foretold !== null) return frame(foretold);
    if (search.heardHum()) return refusal('hum');
    return refusal(pluckedAt !== null && since < attackAtMostSeconds * rateHertz ? 'attack' : 'unclear');
  };

  /** Follows the string through one more hop. */
  const follow = (string: Estimate, usable: number, since: number): PitchEvent => {
    if (handover.reconsider(usable, string)) {
      // What was measured until now was disturbed.
      rest.restart();
      strays.forget();
    }
    const next = follower.follow(background.clean, state.end, usable, string, memory.recall(string.hertz), strays);
    const onProbation = pluckedAt !== null && since < probationSeconds * rateHertz;
    const isLost = next === null || Math.abs(centsApart(next.hertz, string.hertz)) > leapCents || (onProbation && !soundsPlucked(next));
    if (next !== null && since > humShowsSeconds * rateHertz && isSurelyHum(next)) {
      forget();
      return refusal('hum');
    }
    const held = isLost || next.sigmaCents > vagueCents ? hold.ringsOn(usable) : null;
    if (held !== null) return frame(held);
    if (isLost) {
      if (++lost >= lostHops) {
        search.lose(string, true);
        forget();
      }
      return refusal('unclear');
    }
    lost = 0;
    if (!search.stillRight(usable, since, next)) {
      forget();
      return refusal('unclear');
    }
    memory.learn(next);
    const shown = rest.settle(next, state.endSeconds, usable / rateHertz);
    if (shown === null) return refusal('two sounds');
    current = shown;
    if (!hold.heard(shown, usable)) {
      forget();
      return refusal('unclear');
    }
    return frame(shown);
  };

  const listen = (): PitchEvent | null => {
    const since = sincePluck() ?? state.count;
    const settled = current !== null && current.steady && since > restlessSeconds * rateHertz;
    if (settled && state.count % (2 * hop) !== 0) return null;
    if (levelDecibels(state, 0.03) < gateDecibels) {
      forget();
      search.forgetAll();
      pluckedAt = null;
      return refusal('silence');
    }
    if (conditioner.clippedShare() > clippedShareAtMost) return refusal('clipped');
    const usable = Math.min(since - (pluckedAt === null ? 0 : attack), state.end);
    if (usable < earliestSeconds * rateHertz) return refusal('attack');
    const before = handover.settle(usable, since);
    if (before === 'wait') return refusal('attack');
    if (before !== 'known') search.lose(before.pluckedAnew, false);
    return current === null ? lookFor(usable, since) : follow(current, usable, since);
  };

  const push = (samples: Float32Array): PitchEvent[] => {
    const events: PitchEvent[] = [];
    for (let index = 0; index < samples.length; index++) {
      if (!conditioner.take(samples[index] ?? 0)) continue;
      background.append(state.samples, state.end);
      const onset = onsets.hear(state.samples, state.end, state.count);
      if (onset !== null) onPluck(onset);
      if (state.count % hop !== 0) continue;
      const event = listen();
      if (event !== null) events.push(event);
    }
    return events;
  };

  const reset = ({ keepStiffness = false }: { keepStiffness?: boolean } = {}) => {
    conditioner.reset();
    onsets.reset();
    background.reset();
    if (!keepStiffness) memory.forget();
    rest.restart();
    search.reset();
    handover.finish(null);
    strike.reset();
    forget();
    pluckedAt = null;
    twins = null;
    twinsAt = 0;
  };

  return {
    push,
    reset,
    expect: (next) => {
      expected = next;
      search.expect(next);
    },
  };
};
