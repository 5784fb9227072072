import { type Axis, shareAlong } from '../../charts/axis.ts';
import { horizonSeconds } from '../../stores/settling.ts';
import { clockTime } from '../../ui/time.ts';

/** A named moment of an axis. */
export type Tick = { readonly seconds: number; readonly words: string };
export type TickedAxis = { readonly axis: Axis; readonly ticks: readonly Tick[] };

const minute = 60;
const hour = 3600;
const day = 86_400;
/** At least so much is shown, backwards and forwards from now. */
const backSeconds = 30 * minute;
const aheadSeconds = 35 * minute;
/** The half hour ahead, in which strings are to hold, ends at this share of an axis at most. */
const horizonEnds = 0.93;
const mostSteps = 8;
const steps = [5 * minute, 10 * minute, 15 * minute, 20 * minute, 30 * minute, hour, 2 * hour, 3 * hour, 6 * hour, 12 * hour];
const daySteps = [1, 2, 4, 7, 14, 28, 56, 112, 224];

const date = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'short' });

/** The clock from the beginning of the retune (at least half an hour back) until a little past the half hour ahead, in whole steps. Seconds of the epoch. */
export function clockAxis(begunAt: number | null, now: number): TickedAxis {
  const from = Math.min(begunAt ?? now, now - backSeconds);
  const until = Math.max(now + aheadSeconds, from + (now + horizonSeconds - from) / horizonEnds);
  const midnight = new Date(from * 1000).setHours(0, 0, 0, 0) / 1000;
  const step = steps.find((one) => Math.ceil((until - midnight) / one) - Math.floor((from - midnight) / one) <= mostSteps);
  const moments = step === undefined ? wholeDays(from, until) : wholeSteps(midnight, from, until, step);
  const [first, last] = [moments[0] ?? from, moments.at(-1) ?? until];
  return {
    axis: { kind: 'linear', from: first, until: last },
    ticks: moments.map((seconds) => ({ seconds, words: momentWords(seconds) })),
  };
}

function wholeSteps(midnight: number, from: number, until: number, step: number): readonly number[] {
  const first = Math.floor((from - midnight) / step);
  const last = Math.ceil((until - midnight) / step);
  return Array.from({ length: last - first + 1 }, (_, index) => midnight + (first + index) * step);
}

/** Midnights, so many days apart. */
function wholeDays(from: number, until: number): readonly number[] {
  const start = new Date(from * 1000);
  const days = daySteps.find((one) => (until - from) / day / one <= mostSteps - 1) ?? daySteps.at(-1) ?? 1;
  const moments: number[] = [];
  for (let index = 0; moments.length === 0 || (moments.at(-1) ?? 0) < until; index += 1)
    moments.push(new Date(start.getFullYear(), start.getMonth(), start.getDate() + index * days).getTime() / 1000);
  return moments;
}

/** `20:10`; a midnight is called by its date. */
const momentWords = (seconds: number): string => {
  const moment = new Date(seconds * 1000);
  return moment.getHours() === 0 && moment.getMinutes() === 0 ? date.format(moment) : clockTime(seconds * 1000);
};

const firstSeconds = 20;
/** Names on a log axis stand at least this share of it apart. */
const apart = 0.1;
const durations: readonly Tick[] = [
  { seconds: firstSeconds, words: '20 s' },
  { seconds: minute, words: '1 min' },
  { seconds: 3 * minute, words: '3 min' },
  { seconds: 10 * minute, words: '10 min' },
  { seconds: 30 * minute, words: '30 min' },
  { seconds: hour, words: '1 h' },
  { seconds: 3 * hour, words: '3 h' },
  { seconds: 10 * hour, words: '10 h' },
  { seconds: day, words: '1 day' },
  { seconds: 3 * day, words: '3 days' },
  { seconds: 10 * day, words: '10 days' },
  { seconds: 30 * day, words: '30 days' },
  { seconds: 100 * day, words: '100 days' },
  { seconds: 300 * day, words: '300 days' },
];

/** The time since a peg move, on a log scale, from 20 seconds until a little past the half hour ahead. `longest` is the longest time that has passed. */
export function sinceAxis(longest: number): TickedAxis {
  const ahead = Math.max(longest, minute) + horizonSeconds;
  const axis: Axis = { kind: 'log', from: firstSeconds, until: firstSeconds * (ahead / firstSeconds) ** (1 / horizonEnds) };
  const ticks: Tick[] = [];
  for (const tick of durations) {
    const share = shareAlong(axis, tick.seconds);
    const last = ticks.at(-1);
    if (share < 0.97 && (last === undefined || share - shareAlong(axis, last.seconds) >= apart)) ticks.push(tick);
  }
  return { axis, ticks };
}
