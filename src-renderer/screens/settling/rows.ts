import type { Overview } from '#shared/contract/index.ts';
import { courseNumber } from '#shared/instruments/index.ts';
import { type LogRows, type StringHistory, stringHistory } from '#shared/log/index.ts';
import type { SpelledPitch } from '#shared/music/index.ts';
import type { Assessment, Verdict } from '#shared/settling/index.ts';
import type { StringVerdict } from '#shared/strung/index.ts';
import type { TuningHere } from '../../stores/strings.ts';

/** One string as this screen shows it. Seconds are of the epoch. */
export type StringRow = {
  readonly string: number;
  readonly assessment: Assessment;
  readonly history: StringHistory;
  /** Its last own peg move of this retune; null where its peg was left alone. */
  readonly movedAt: number | null;
  /** Since when its readings belong together: its own last move, else the last move of any peg, else the retune. */
  readonly since: number;
  /** What was heard of it since then. */
  readonly heard: StringHistory['readings'];
};

/** One course: its strings, the one with the worse verdict first. */
export type Row = {
  readonly course: number;
  readonly number: number;
  readonly pitches: readonly SpelledPitch[];
  readonly verdict: Verdict;
  readonly strings: readonly [StringRow, ...StringRow[]];
  readonly gaugeMillimetres: number | null;
  /** When other pegs were turned in this retune. */
  readonly otherTurns: readonly number[];
};

const worst: readonly Verdict[] = ['slipping', 'unheard', 'settling', 'holding'];

/** The courses of an instrument, from the player's eye down. */
export function rowsOf(overview: Overview, tuning: TuningHere, log: LogRows, verdicts: readonly StringVerdict[]): readonly Row[] {
  const { courses } = overview.stringSet;
  const strings = verdicts.map(({ course, string, assessment }) => ({
    course,
    string,
    assessment,
    history: stringHistory(log, course, string, tuning.hertz[course]?.[string]),
  }));
  const turns = strings.flatMap(({ course, history }) => history.moves.map(({ atSeconds }) => ({ course, atSeconds })));
  const startedAt = log.retunes.at(-1)?.startedAt;
  const lastTurn = turns.length > 0 ? Math.max(...turns.map(({ atSeconds }) => atSeconds)) : null;
  return courses.flatMap((fitted, course): Row[] => {
    const here = strings
      .filter((one) => one.course === course)
      .map(({ string, assessment, history }): StringRow => {
        const movedAt = history.moves.at(-1)?.atSeconds ?? null;
        const begun = startedAt === undefined ? history.readings[0]?.atSeconds : startedAt / 1000;
        const since = movedAt ?? lastTurn ?? begun ?? 0;
        return { string, assessment, history, movedAt, since, heard: history.readings.filter(({ atSeconds }) => atSeconds >= since) };
      })
      .sort((a, b) => worst.indexOf(a.assessment.verdict) - worst.indexOf(b.assessment.verdict));
    const [leading, ...others] = here;
    if (leading === undefined) return [];
    return [
      {
        course,
        number: courseNumber(course, courses.length),
        pitches: tuning.pitches[course] ?? [],
        verdict: leading.assessment.verdict,
        strings: [leading, ...others],
        gaugeMillimetres: fitted.strings[leading.string]?.diameterMillimetres ?? null,
        otherTurns: turns.flatMap((turn) => (turn.course === course ? [] : [turn.atSeconds])),
      },
    ];
  });
}

/** A band wider than this to either side, in cents, foretells nothing. */
const uselessCents = 25;

/** Whether the forecast says anything about where a string is. */
export function isForeseen({ forecast }: Assessment, now: number): boolean {
  const { low, high } = forecast(now);
  return high - low <= 2 * uselessCents;
}

/** When the retune that these rows are in began: its first peg move or reading. Null where there is neither. */
export function begunAt(rows: readonly Row[]): number | null {
  const moments = rows.flatMap(({ strings }) =>
    strings.flatMap(({ history }) => [...history.moves.slice(0, 1), ...history.readings.slice(0, 1)].map(({ atSeconds }) => atSeconds)),
  );
  return moments.length === 0 ? null : Math.min(...moments);
}

/** Whether any of the strings was ever heard in the part of the log that was read. */
export const wasEverHeard = (rows: readonly Row[]): boolean =>
  rows.some(({ strings }) => strings.some(({ history }) => history.readings.length + history.past.length > 0));
