import type { SetVerdicts } from '#shared/contract/index.ts';

// When the player is to be reminded that a check is due. Times are epoch milliseconds.

/** A check that was planned when an instrument was last turned or heard: of which courses (from the player's eye, from 0), and from when on. */
export type PlannedCheck = {
  readonly stringSetId: string;
  readonly touchedAt: number;
  readonly courses: readonly number[];
  readonly at: number;
};

/** A check that was not made by then is no longer worth a word: the player has gone (own choice). */
const lapsesMilliseconds = 2 * 3_600_000;
/** Checks within a minute of one another are one. */
const togetherMilliseconds = 60_000;
/** Only instruments that were touched since then can have a check that is due. */
export const watchedMilliseconds = lapsesMilliseconds + 3_600_000;

/** The check that a judgement asks for: the soonest of the strings that still move. Null where none does, or where another reading tells nothing. */
export function checkAskedFor(
  { stringSetId, strings }: Pick<SetVerdicts, 'stringSetId' | 'strings'>,
  touchedAt: number,
): PlannedCheck | null {
  const moving = strings.flatMap(({ course, verdict, nextCheckSeconds }) =>
    (verdict === 'settling' || verdict === 'slipping') && nextCheckSeconds !== null ? [{ course, at: nextCheckSeconds * 1000 }] : [],
  );
  if (moving.length === 0) return null;
  const at = Math.min(...moving.map((one) => one.at));
  const courses = new Set(moving.filter((one) => one.at - at <= togetherMilliseconds).map(({ course }) => course));
  return { stringSetId, touchedAt, courses: [...courses], at };
}

/**
 * The check that stands. A later judgement always looks ahead from its own moment, so the plan made first after the strings were touched holds, until
 * they are touched again or need no check any more.
 */
export const planThatHolds = (before: PlannedCheck | undefined, asked: PlannedCheck | null): PlannedCheck | null =>
  before !== undefined && asked !== null && before.touchedAt === asked.touchedAt ? before : asked;

/** From when on the player is reminded of a check: when it falls due, or later where that was put off. */
export const remindFrom = ({ at }: Pick<PlannedCheck, 'at'>, snoozedUntil: number | null): number => Math.max(at, snoozedUntil ?? 0);

/** Whether to remind of a check at `now`: from its moment on, not while it is put off, and not for ever. */
export function isDue(check: Pick<PlannedCheck, 'at'>, snoozedUntil: number | null, now: number): boolean {
  const from = remindFrom(check, snoozedUntil);
  return now >= from && now < from + lapsesMilliseconds;
}

/** What stands for one reminder, so that none is given twice. */
export const reminderKey = (check: PlannedCheck, snoozedUntil: number | null): string =>
  `${check.stringSetId} ${check.touchedAt} ${remindFrom(check, snoozedUntil)}`;
