import type { Conditioned } from './condition.ts';

/** What came just before the pluck, and the loudest moment just after it. */
const beforeSeconds = 0.04;
const marginSeconds = 0.005;
const momentSeconds = 0.016;
const settleSeconds = 0.005;
const stepSeconds = 0.004;
const attackSeconds = 0.04;
/** A pluck rises above what rang or spoke before by at least this factor of power (5 dB); a voice that goes on hardly rises. */
export const riseAtLeast = 3.2;
/** A second onset this soon is still the same pluck: finger and plectrum knock first. */
const samePluckSeconds = 0.15;

/** The rumble of a room, below this, drowns a pluck in plain power. */
const rumbleBelowHertz = 60;

/**
 * Tells a pluck from a turn of a voice: both are new sound, but a plucked string is loudest within milliseconds and louder than what was
 * there. `samples` is the sound without its background, in the places of `state.samples`.
 */
export const createStrikeJudge = (state: Conditioned, samples: Float64Array) => {
  const { rateHertz } = state;
  const count = (seconds: number) => Math.round(seconds * rateHertz);
  let onset: number | null = null;
  /** The rise of this onset, once it is known; and of the onset just before, of the same pluck. */
  let own: number | null = null;
  let before = 1;

  /** The sound about an onset without its rumble: power before the onset, and of its loudest moment after. */
  const riseAt = (place: number): number => {
    const pole = Math.exp((-2 * Math.PI * rumbleBelowHertz) / rateHertz);
    const power = (from: number, length: number) => {
      let energy = 0;
      let high = 0;
      for (let index = Math.max(1, from - count(settleSeconds)); index < from + length; index++) {
        high = pole * (high + (samples[index] ?? 0) - (samples[index - 1] ?? 0));
        if (index >= from) energy += high ** 2;
      }
      return energy / length;
    };
    let after = 0;
    for (let from = place; from + count(momentSeconds) <= place + count(attackSeconds); from += count(stepSeconds))
      after = Math.max(after, power(from, count(momentSeconds)));
    return after / (power(place - count(marginSeconds + beforeSeconds), count(beforeSeconds)) + Number.MIN_VALUE);
  };

  return {
    /** A new onset, as a count of working samples. */
    onset: (at: number) => {
      before = own !== null && onset !== null && at - onset < count(samePluckSeconds) ? Math.max(before, own) : 1;
      own = null;
      onset = at;
    },
    /**
     * By what factor of power the last onset rose above what was there; null where there was none, or where it was no pluck. Until enough of it is
     * heard it counts as one that rose just enough.
     */
    rise: (): number | null => {
      if (onset === null) return null;
      const since = state.count - onset;
      if (own === null && since < count(attackSeconds)) return Math.max(before, riseAtLeast);
      own ??= riseAt(state.end - since);
      const rise = Math.max(before, own);
      return rise < riseAtLeast ? null : rise;
    },
    reset: () => {
      onset = null;
      own = null;
    },
  };
};
