import type { Reading } from '#shared/log/index.ts';
import type { Assessment } from '#shared/settling/index.ts';
import type { RetuneEnd } from '../../stores/retune-end.ts';
import { clockTime } from '../../ui/time.ts';
import { centsText, figure } from '../../ui/words.ts';

type Forecasting = {
  readonly verdict: Assessment['verdict'];
  readonly holdsFromSeconds: number | null;
  readonly nextCheckSeconds: number | null;
  readonly forecast: (atSeconds: number) => { readonly cents: number };
};

/** `Wren is in Lantern E♭`, or in it but for some courses; `Wren is still in Home` where it was not retuned. */
export const doneTitle = (instrument: string, { isRetuned, tuning }: Pick<RetuneEnd, 'isRetuned' | 'tuning'>): string =>
  `${instrument} is ${isRetuned ? '' : 'still '}in ${tuning}`;

/** What was reached: `0.4 c above`; where nothing was heard in its place, whether the player left it. */
export const reachedWords = (last: Pick<Reading, 'deviationCents' | 'sigmaCents'> | undefined, isLeft: boolean): string =>
  last === undefined
    ? isLeft
      ? 'left as it is'
      : 'not heard'
    : `${centsText(last.deviationCents, last.sigmaCents)} ${last.deviationCents < 0 ? 'below' : 'above'}`;

/**
 * When it is worth listening again, and from when every course holds: the first check of a string that still moves, as on Settling, and the last of
 * the settling. `isWhole` = no course was left; `now` in seconds.
 */
export function againWords(assessments: readonly Forecasting[], now: number, isWhole: boolean): string {
  if (assessments.length === 0) return '';
  const checks = assessments.flatMap(({ verdict, nextCheckSeconds }) =>
    verdict === 'holding' || nextCheckSeconds === null || nextCheckSeconds < now + soonest ? [] : [nextCheckSeconds],
  );
  const check = checks.length === 0 ? '' : `Check again at about ${clockTime(Math.min(...checks) * 1000)}.`;
  const holds = assessments.map(({ holdsFromSeconds }) => holdsFromSeconds);
  const last = Math.max(...holds.map((from) => from ?? Number.POSITIVE_INFINITY));
  const holding = isWhole ? 'It holds' : assessments.length === 1 ? 'The other holds' : 'The others hold';
  const from = last <= now + soonest ? `${holding} now.` : last - now > longest ? '' : `${holding} from about ${clockTime(last * 1000)}.`;
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
