import type { Tonight } from '#shared/settling/index.ts';
import type { RetuneBy } from '../../stores/later.ts';
import { clockTime } from '../../ui/time.ts';
import { figure } from '../../ui/words.ts';
import { at } from './words.ts';

const halfHour = 1800;
const day = 86_400;
/** A time to hold at is proposed at least so far ahead. */
const leastAhead = 3600;

/** The time of day that is proposed: the first half hour that is at least an hour away. */
export const proposedTime = (now: number): string => clockTime(Math.ceil((now + leastAhead) / halfHour) * halfHour * 1000);

/** The next moment with that time of day, in seconds of the epoch: `20:00`, `8.30`, `2000`; null where it is no time. */
export function momentOf(text: string, now: number): number | null {
  const [, hours, minutes] = /^\s*(\d{1,2})[:.h ]?(\d{2})\s*$/u.exec(text) ?? [];
  if (hours === undefined || minutes === undefined || Number(hours) > 23 || Number(minutes) > 59) return null;
  const moment = new Date(now * 1000).setHours(Number(hours), Number(minutes), 0, 0) / 1000;
  return moment >= now ? moment : new Date((moment + day) * 1000).setHours(Number(hours), Number(minutes), 0, 0) / 1000;
}

/** What follows on `To hold at 20:00 in Home,`; `strong` is when to retune. */
export function retuneByWords(by: RetuneBy, holdAt: number, now: number): { readonly strong: string; readonly rest: string } {
  if (by.kind === 'nothing-to-turn') return { strong: 'nothing is to be turned.', rest: '' };
  if (by.kind === 'too-late') {
    const from = by.holdsFromSeconds;
    return {
      strong: 'it is too late:',
      rest: from === null ? ' retuned now, it takes more than 30 days.' : ` retuned now, it holds from about ${at(from, now)}.`,
    };
  }
  if (by.atSeconds >= holdAt) return { strong: 'retune just before:', rest: ' it holds at once.' };
  return { strong: `retune by ${at(Math.floor(by.atSeconds / 60) * 60, now)}.`, rest: '' };
}

const nights = { home: 'Take it home now.', leave: 'Leave it as it is tonight.', either: 'Leave it or take it home, as you like.' };
const moves = ({ moveCents }: Tonight['home']): string =>
  Math.abs(moveCents) < 1 ? 'less than 1 c' : `about ${figure(Math.abs(moveCents))} c`;

/** `Take it home now.` with both movements, for an instrument that is wanted at home tomorrow at this time. */
export const tonightWords = ({ better, leave, home }: Tonight): { readonly strong: string; readonly rest: string } => ({
  strong: nights[better],
  rest: ` Home now, it moves ${moves(home)} in its first half hour tomorrow; left until then, ${moves(leave)}.`,
});
