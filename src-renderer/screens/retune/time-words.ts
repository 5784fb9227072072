import { clockTime } from '../../ui/time.ts';
import { count } from '../../ui/words.ts';

/** Minutes to turn one course, hearing it included (common practice). */
const minutesACourse = 1;
const minute = 60_000;
const hour = 3600;
const day = 86_400;

/** `About 3 minutes to turn, done by 20:08`. `now` in epoch milliseconds. */
export const turnWords = (courses: number, now: number): string => {
  const minutes = courses * minutesACourse;
  return courses === 0 ? 'Nothing to turn' : `About ${count(minutes, 'minute')} to turn, done by ${clockTime(now + minutes * minute)}`;
};

/**
 * How long the strings take from the last turn until they hold for as long as is looked ahead: `About 12 minutes more to settle, holds from 20:20`.
 * `seconds` null = not within a month.
 */
export function settleWords(seconds: number | null, courses: number, now: number): string {
  if (seconds === null) return 'It will not settle by itself within a month';
  if (seconds < 90) return 'Holds as soon as it is turned';
  const from = now + courses * minutesACourse * minute + seconds * 1000;
  if (seconds < 2 * hour) return `About ${count(roundMinutes(seconds / 60), 'minute')} more to settle, holds from ${clockTime(from)}`;
  if (seconds < day) return `About ${Math.round(seconds / hour)} hours more to settle; touch it up meanwhile`;
  return `About ${count(Math.round(seconds / day), 'day')} more to settle; touch it up meanwhile`;
}

/** Minutes as a player counts them: single ones up to ten, then fives. */
const roundMinutes = (minutes: number): number => (minutes < 10 ? Math.max(1, Math.round(minutes)) : Math.round(minutes / 5) * 5);
