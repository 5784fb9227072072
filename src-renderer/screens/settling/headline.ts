import { horizonSeconds } from '../../stores/settling.ts';
import { listed } from '../../ui/words.ts';
import type { Row } from './rows.ts';
import { at } from './words.ts';

const numbers = ['none', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten', 'eleven', 'twelve'];
const inWords = (count: number): string => numbers[count] ?? String(count);

const named = (rows: readonly Row[]): string => `${rows.length === 1 ? 'course' : 'courses'} ${listed(rows.map(({ number }) => number))}`;
const are = (rows: readonly Row[]): string => (rows.length === 1 ? 'is' : 'are');
const upper = (words: string): string => `${words.charAt(0).toUpperCase()}${words.slice(1)}`;
const withVerdict = (rows: readonly Row[], verdict: Row['verdict']): readonly Row[] => rows.filter((row) => row.verdict === verdict);

/** The whole instrument in a line: `2 of 4 hold, course 2 is slipping`. */
export function headline(rows: readonly Row[], now: number): string {
  const [slipping, unheard, settling, holding] = (['slipping', 'unheard', 'settling', 'holding'] as const).map((verdict) =>
    withVerdict(rows, verdict),
  );
  if (slipping === undefined || unheard === undefined || settling === undefined || holding === undefined)
    throw new Error('every verdict has its rows');
  if (unheard.length === rows.length) return `Nothing heard since ${at(Math.min(...rows.map(({ strings: [{ since }] }) => since)), now)}`;
  if (holding.length === rows.length) return `All ${inWords(rows.length)} hold`;
  if (settling.length === rows.length) return `All ${inWords(rows.length)} are settling`;
  const hold = holding.length === 0 ? [] : [`${holding.length} of ${rows.length} ${holding.length === 1 ? 'holds' : 'hold'}`];
  const rest =
    slipping.length > 0
      ? `${named(slipping)} ${are(slipping)} slipping`
      : unheard.length > 0
        ? `${named(unheard)} not heard yet`
        : `${named(settling)} ${are(settling)} settling`;
  return upper([...hold, rest].join(', '));
}

/** What stands right under the headline: what to do or to count on, and the rest of the sentence. */
export type NextStep = { readonly strong: string; readonly rest: string };

type Facts = { readonly now: number; readonly toleranceCents: number };

/** The next useful sentence about the courses that do not slip; those have their warnings. */
export function nextStep(rows: readonly Row[], { now, toleranceCents }: Facts): NextStep {
  const isSlipping = withVerdict(rows, 'slipping').length > 0;
  const unheard = withVerdict(rows, 'unheard');
  const settling = withVerdict(rows, 'settling');
  if (unheard.length > 0) {
    const all = unheard.length === rows.length;
    return {
      strong: all ? 'Pluck every course once' : `Pluck ${named(unheard)} once`,
      rest: `, then this page can tell how ${all ? 'they' : unheard.length === 1 ? 'it' : 'they'} moved.`,
    };
  }
  if (settling.length > 0) {
    const outside = settling.filter(({ strings: [{ assessment }] }) => (assessment.holdsFromSeconds ?? Number.POSITIVE_INFINITY) <= now);
    if (outside.length > 0) return { strong: `Touch up ${named(outside)}:`, rest: ' still enough to hold, but off its pitch.' };
    const moments = settling.map(({ strings: [{ assessment }] }) => assessment.holdsFromSeconds ?? Number.POSITIVE_INFINITY);
    const last = Math.max(...moments);
    return Number.isFinite(last)
      ? { strong: `Steady within ±${toleranceCents} c from about ${at(last, now)}.`, rest: ' A touch-up made before then will drift.' }
      : { strong: `${upper(named(settling))} will not be steady within 30 days.`, rest: ' A touch-up will drift.' };
  }
  if (isSlipping) return { strong: '', rest: '' };
  return { strong: 'Ready to play:', rest: ` nothing is expected to leave ±${toleranceCents} c before ${at(now + horizonSeconds, now)}.` };
}

/** A check that the player is going to be reminded of: courses from the eye, from 0; epoch milliseconds. */
type Planned = { readonly courses: readonly number[]; readonly at: number };

/** When the next reading would tell most, and of which course; while any course moves, the check that the player is reminded of. */
export function nextCheck(rows: readonly Row[], now: number, planned: Planned | null): string {
  const unheard = withVerdict(rows, 'unheard');
  if (unheard.length === rows.length) return 'The next useful check is now.';
  if (unheard.length > 0) return `The next useful check is now: ${named(unheard)}.`;
  if (planned !== null) {
    const courses = named(rows.filter(({ course }) => planned.courses.includes(course)));
    if (planned.at / 1000 <= now) return `The next useful check is now: ${courses}.`;
    return `Next useful check at ${at(planned.at / 1000, now)}: ${courses}. You will be reminded.`;
  }
  const slipping = withVerdict(rows, 'slipping');
  if (slipping.length > 0) return `Hear ${named(slipping)} again once you have looked.`;
  const checks = rows.flatMap((row) =>
    row.strings.flatMap(({ assessment: { nextCheckSeconds } }) => (nextCheckSeconds === null ? [] : [{ row, seconds: nextCheckSeconds }])),
  );
  if (checks.length === 0) return `No check is needed before ${at(now + horizonSeconds, now)}.`;
  const first = checks.reduce((soonest, check) => (check.seconds < soonest.seconds ? check : soonest));
  return `Next useful check at ${at(first.seconds, now)}: ${named([first.row])}.`;
}
