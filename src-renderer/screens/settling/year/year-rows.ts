import type { YearDay } from '../../../charts/year-chart.tsx';
import type { Output, Overview } from '#shared/contract/index.ts';
import { courseNumber } from '#shared/instruments/index.ts';
import type { SpelledPitch } from '#shared/music/index.ts';
import type { StringChange } from '#shared/log/index.ts';
import { daysSinceChanged } from '#shared/strung/index.ts';
import type { Year } from '../../../stores/year.ts';

/** A year of one string. Times are epoch milliseconds, cents from what was wanted when it was heard. */
export type YearRow = {
  readonly course: number;
  readonly string: number;
  readonly number: number;
  /** Its open pitch at home. */
  readonly pitch: SpelledPitch | null;
  readonly gaugeMillimetres: number | null;
  readonly days: readonly (YearDay & { readonly count: number })[];
  /** When it was changed in this year: with its set (`noted` null), or by itself as the player noted. */
  readonly changes: readonly { readonly at: number; readonly noted: StringChange | null }[];
  readonly ageDays: number;
};

type Facts = { readonly overview: Overview; readonly year: Year; readonly changes: Output<'log.remarks'>['changes']; readonly now: number };

/** Every string of an instrument, from the player's eye down. */
export const yearRows = ({ overview: { stringSet }, year, changes, now }: Facts): readonly YearRow[] =>
  stringSet.courses.flatMap(({ strings, home }, course) =>
    strings.map(({ diameterMillimetres }, string): YearRow => {
      const isHere = (one: { readonly course: number; readonly string: number }): boolean => one.course === course && one.string === string;
      const own = changes.filter((one) => isHere(one) && one.stringSetId === stringSet.id);
      const fitted = [
        ...year.sets.map((set) => ({ at: set.stringSet.fittedAt, noted: null })),
        ...changes.filter(isHere).map((noted) => ({ at: noted.at, noted })),
      ];
      return {
        course,
        string,
        number: courseNumber(course, stringSet.courses.length),
        pitch: home[string] ?? null,
        gaugeMillimetres: diameterMillimetres,
        days: year.days
          .filter(isHere)
          .map(({ lastAt, lowestCents, highestCents, lastCents, count }) => ({
            at: lastAt,
            lowest: lowestCents,
            highest: highestCents,
            last: lastCents,
            count,
          }))
          .toSorted((a, b) => a.at - b.at),
        changes: fitted.filter(({ at }) => at >= year.from && at < year.until).toSorted((a, b) => a.at - b.at),
        ageDays: daysSinceChanged(stringSet, own, { course, string }, now),
      };
    }),
  );

/** The firsts of the months in a year, with their names. */
export function monthsOf({ from, until }: Pick<Year, 'from' | 'until'>): readonly { readonly at: number; readonly words: string }[] {
  const start = new Date(from);
  return Array.from({ length: 14 }, (_, index) => new Date(start.getFullYear(), start.getMonth() + index, 1).getTime())
    .filter((at) => at >= from && at < until)
    .map((at) => ({ at, words: month.format(at) }));
}

const month = new Intl.DateTimeFormat('en-GB', { month: 'short' });

const leastCents = 14;
const mostCents = 42;
const airCents = 4;

/** How far a board has to reach to either side, in cents: the same for all strings, so that they can be compared. */
export const boundOf = (rows: readonly YearRow[]): number =>
  Math.min(
    mostCents,
    Math.max(leastCents, ...rows.flatMap(({ days }) => days.map(({ lowest, highest }) => Math.max(-lowest, highest) + airCents))),
  );
