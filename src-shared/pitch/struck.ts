import type { Conditioned } from './condition.ts';

/** What came just before the pluck, and the loudest moment just after it. */
const beforeSeconds = 0.04;
const marginSeconds = 0.005;
const momentSeconds = 0.016;
const stepSeconds = 0.004;
const attackSeconds = 0.04;
/** A pluck rises above what rang or spoke before by at least this factor of power (5 dB); a voice that goes on hardly rises. */
const riseAtLeast = 3.2;
/** A second onset this soon is still the same pluck: finger and plectrum knock first. */
const samePluckSeconds = 0.15;

const powerOf = (samples: Float64Array, from: number, length: number): number => {
  let energy = 0;
  for (let index = Math.max(0, from); index < from + length; index++) energy += (samples[index] ?? 0) ** 2;
  return energy / length;
};

/**
 * Tells a pluck from a turn of a voice: both are new sound, but a plucked string is loudest within milliseconds and louder than what was
 * there. `samples` is the sound without its background, in the places of `state.samples`.
 */
export const createStrikeJudge = (state: Conditioned, samples: Float64Array) => {
  const { rateHertz } = state;
  const count = (seconds: number) => Math.round(seconds * rateHertz);
  let onset: number | null = null;
  let struck: boolean | null = null;
  let before = false;

  return {
    /** A new onset, as a count of working samples. */
    onset: (at: number) => {
      before = struck === true && onset !== null && at - onset < count(samePluckSeconds);
      struck = null;
      onset = at;
    },
    /** Whether the last onset was a pluck; true until enough of it is heard, false where there was none. */
    wasStruck: (): boolean => {
      if (onset === null) return false;
      const since = state.count - onset;
      if (struck !== null || since < count(attackSeconds)) return struck ?? true;
      const place = state.end - since;
      let after = 0;
      for (let from = place; from + count(momentSeconds) <= place + count(attackSeconds); from += count(stepSeconds))
        after = Math.max(after, powerOf(samples, from, count(momentSeconds)));
      struck = before || after > riseAtLeast * powerOf(samples, place - count(marginSeconds + beforeSeconds), count(beforeSeconds));
      return struck;
    },
    reset: () => {
      onset = null;
      struck = null;
    },
  };
};
