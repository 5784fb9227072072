import type { StringState } from '#shared/guidance/index.ts';
import { courseNumber } from '#shared/instruments/index.ts';
import type { Reading } from '#shared/log/index.ts';
import type { Assessment } from '#shared/settling/index.ts';
import { centsBetween, hertz } from '#shared/units/index.ts';
import { clockTime } from '../../ui/time.ts';
import { centsText, figure, listed } from '../../ui/words.ts';

type Forecasting = {
  readonly verdict: Assessment['verdict'];
  readonly holdsFromSeconds: number | null;
  readonly nextCheckSeconds: number | null;
  readonly forecast: (atSeconds: number) => { readonly cents: number };
};

/** A course this far from its pitch was not brought into the tuning, in cents. */
const leftCents = 50;

/** The courses that were left far from their pitch, from the player's eye: who skips a course has not brought it into the tuning. */
export const leftCourses = (strings: readonly Pick<StringState, 'course' | 'presentHertz' | 'wantedHertz'>[]): readonly number[] => [
  ...new Set(
    strings.flatMap(({ course, presentHertz, wantedHertz }) =>
      Math.abs(centsBetween(hertz(presentHertz), hertz(wantedHertz))) > leftCents ? [course] : [],
    ),
  ),
];

/** `Wren is in Lantern E♭`, or what it is not: `Wren is in Lantern E♭ but for courses 3 and 2`; `Wren is not in Lantern E♭` where every course was left. */
export function doneTitle(instrument: string, tuning: string, left: readonly number[], courses: number): string {
  if (left.length === courses) return `${instrument} is not in ${tuning}`;
  const numbers = left.map((course) => courseNumber(course, courses));
  const but = left.length === 0 ? '' : ` but for ${left.length === 1 ? 'course' : 'courses'} ${listed(numbers)}`;
  return `${instrument} is in ${tuning}${but}`;
}

/** What was reached: `0.4 c above`; `left as it is` where nothing was. */
export const reachedWords = (last: Pick<Reading, 'deviationCents' | 'sigmaCents'> | undefined): string =>
  last === undefined
    ? 'left as it is'
    : `${centsText(last.deviationCents, last.sigmaCents)} ${last.deviationCents < 0 ? 'below' : 'above'}`;

/**
 * When it is worth listening again, and from when every course holds: the first check of a string that still moves, as on Settling, and the last of
 * the settling. `now` in seconds.
 */
export function againWords(assessments: readonly Forecasting[], now: number): string {
  if (assessments.length === 0) return '';
  const checks = assessments.flatMap(({ verdict, nextCheckSeconds }) =>
    verdict === 'holding' || nextCheckSeconds === null || nextCheckSeconds < now + soonest ? [] : [nextCheckSeconds],
  );
  const check = checks.length === 0 ? '' : `Check again at about ${clockTime(Math.min(...checks) * 1000)}.`;
  const holds = assessments.map(({ holdsFromSeconds }) => holdsFromSeconds);
  const last = Math.max(...holds.map((from) => from ?? Number.POSITIVE_INFINITY));
  const from = last <= now + soonest ? 'It holds now.' : last - now > longest ? '' : `It holds from about ${clockTime(last * 1000)}.`;
  return [check, from].filter((part) => part !== '').join(' ');
}

/** A check sooner than this is what has just been done, in seconds. */
const soonest = 60;
/** A time further off than this is no time of this evening, in seconds. */
const longest = 12 * 3600;

/** Where a course is expected at the end of the time looked ahead: `about 6 c sharp by 20:38`; `stays` within a cent of where it is. */
export function expectWords({ forecast }: Forecasting, now: number, until: number): string {
  const end = forecast(until).cents;
  if (Math.abs(end - forecast(now).cents) < 1) return 'stays';
  if (Math.abs(end) < 1) return `on its pitch by ${clockTime(until * 1000)}`;
  return `about ${figure(Math.abs(end))} c ${end < 0 ? 'flat' : 'sharp'} by ${clockTime(until * 1000)}`;
}

/** A change from which on the neck and the strings' height may have moved enough to be heard at the 12th fret (common practice), in cents. */
export const bigChangeCents = 150;
