import type { StringSet } from '#shared/instruments/index.ts';
import { lastHeard, type LogRows, type StringChange, type StringHistory, stringHistory } from '#shared/log/index.ts';
import { type Assessment, assess } from '#shared/settling/index.ts';
import { centsBetween, hertz } from '#shared/units/index.ts';
import { daysSinceChanged } from './age.ts';

/** So many retunes are looked back on, and for so long a string is to hold: everywhere the same, so that a list and the page of an instrument agree. */
export const retunesRead = 12;
export const horizonSeconds = 1800;

/** One string's part of an instrument's state: which it is and its verdict. */
export type StringVerdict = { readonly course: number; readonly string: number; readonly assessment: Assessment };

type Question = {
  readonly stringSet: StringSet;
  readonly log: LogRows;
  /** Strings of the set that were changed by themselves, oldest first. */
  readonly changes: readonly StringChange[];
  /** What each string is to sound tonight, in hertz: verdicts are about this, whatever was wanted when a reading was made. */
  readonly wanted: readonly (readonly number[])[];
  /** Epoch milliseconds. */
  readonly now: number;
  /** How far from wanted is good enough, in cents, above 0. */
  readonly toleranceCents: number;
};

/** The verdicts on the strings of a set, from the player's eye down. It takes some 20 ms for a string with a year behind it. */
export function judgeStrings({ stringSet, log, changes, wanted, now, toleranceCents }: Question): readonly StringVerdict[] {
  const places = stringSet.courses.flatMap(({ strings }, course) => strings.map((facts, string) => ({ course, string, facts })));
  const assessments = assess({
    courses: places.map(({ course, string, facts: { material, wound } }) => ({
      string: { material, wound, daysSinceChange: daysSinceChanged(stringSet, changes, { course, string }, now) },
      ...fromLastHeard(stringHistory(log, course, string, wanted[course]?.[string]), log, { course, string }, wanted[course]?.[string]),
    })),
    nowSeconds: now / 1000,
    policy: { toleranceCents, horizonSeconds },
  });
  return places.flatMap(({ course, string }, index) => {
    const assessment = assessments[index];
    return assessment === undefined ? [] : [{ course, string, assessment }];
  });
}

/**
 * A string turned in this retune and not heard in it: only from where it was heard last can be told where the turn took it, so that reading
 * comes first in the stretch.
 */
function fromLastHeard(
  history: StringHistory,
  { readings }: LogRows,
  { course, string }: { readonly course: number; readonly string: number },
  wantedHertz: number | undefined,
): StringHistory {
  const last = lastHeard(readings, course, string);
  if (history.moves.length === 0 || history.readings.length > 0 || last === null || wantedHertz === undefined) return history;
  const cents = centsBetween(hertz(last.hertz), hertz(wantedHertz));
  return { ...history, readings: [{ atSeconds: last.at / 1000, cents, sigmaCents: last.sigmaCents }] };
}

/** Strings move with the logarithm of time: within this share of the time since they were last touched or heard, hardly anything changes. */
const dullShare = 0.02;
/** Of strings left alone for more than a day, by then hardly a cent off what was said: so many verdicts need not be made anew at every start (own choice). */
const longDullShare = 0.1;
const longMilliseconds = 86_400_000;
const soonestMilliseconds = 10_000;

/** Whether verdicts made at `judgedAt` are worth making anew at `now`, with no row added since `touchedAt`. Epoch milliseconds. */
export const isDueAgain = ({
  touchedAt,
  judgedAt,
  now,
}: {
  readonly touchedAt: number;
  readonly judgedAt: number;
  readonly now: number;
}): boolean => {
  const before = judgedAt - touchedAt;
  const share = before > longMilliseconds ? longDullShare : dullShare;
  return now - judgedAt >= Math.max(soonestMilliseconds, share * before);
};
