import { count, figure } from '../../../ui/words.ts';
import type { SettleTime } from './settle-times.ts';
import type { YearRow } from './year-rows.ts';

const minute = 60;
const date = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'long' });

/** The day of a moment: `today`, or `15 November`. Epoch milliseconds. */
export const dayOf = (at: number, now: number): string => (date.format(at) === date.format(now) ? 'today' : date.format(at));

/** A settle time as a player says it: `at once`, `in about 12 minutes`, `in about 3 hours`; past 30 days it is said so. */
export function settleWords(seconds: number | null): string {
  if (seconds === null) return 'not within 30 days';
  if (seconds < minute) return 'at once';
  if (seconds < 90 * minute) return `in about ${count(Math.round(seconds / minute), 'minute')}`;
  if (seconds < 36 * 3600) return `in about ${count(Math.round(seconds / 3600), 'hour')}`;
  return `in about ${count(Math.round(seconds / 86_400), 'day')}`;
}

/** How old a string is: `new today`, `1 day on`, `118 days on`. */
export const ageWords = (days: number): string => (days < 1 ? 'new today' : `${count(Math.floor(days), 'day')} on`);

/** What is assumed of a string of its kind, where it taught that it takes another time; else that it is as assumed. */
export const assumedWords = ({ learned, assumed }: SettleTime): string =>
  settleWords(learned) === settleWords(assumed)
    ? 'as assumed of its kind'
    : `${settleWords(assumed).replace('in about ', '')} assumed of its kind`;

/** How far it was off at most: `at most 12 c flat, 15 November`. Epoch milliseconds. */
export function farthestWords({ days }: Pick<YearRow, 'days'>, now: number): string {
  if (days.length === 0) return 'not heard in this year';
  const farthest = days
    .flatMap(({ at, lowest, highest }) => [lowest, highest].map((cents) => ({ at, cents })))
    .reduce((most, one) => (Math.abs(one.cents) > Math.abs(most.cents) ? one : most));
  const off = `${figure(Math.abs(farthest.cents))}\u00A0c ${farthest.cents < 0 ? 'flat' : 'sharp'}`;
  return `at most ${off}, ${dayOf(farthest.at, now)}`;
}

const day = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'long', year: 'numeric' });

/** The set that is on, since when, and on how many days of the year it or the sets before it were heard. Epoch milliseconds. */
export function setWords({ name, fittedAt }: { readonly name: string; readonly fittedAt: number }, rows: readonly YearRow[]): string {
  const days = new Set(rows.flatMap((row) => row.days.map(({ at }) => day.format(at))));
  return `${name}, fitted ${day.format(fittedAt)}. Heard on ${count(days.size, 'day')} of this year.`;
}
