import type { SetVerdicts } from '#shared/contract/index.ts';
import { isSeen, type Warning, type WarningSeen } from '#shared/log/index.ts';
import { capital, figure } from '../../ui/words.ts';
import type { PlaceToLook } from './look.ts';
import type { Row } from './rows.ts';
import { at } from './words.ts';

/** What there is to warn of on one course, where to look, and when the player saw it (epoch milliseconds; null = not yet). */
export type CourseWarning = {
  readonly row: Row;
  readonly string: number;
  readonly warning: Warning;
  readonly looks: readonly PlaceToLook[];
  readonly seenAt: number | null;
};

type Facts = {
  /** The strings as the host judged them: the same that lists show. */
  readonly strings: SetVerdicts['strings'];
  readonly seen: readonly WarningSeen[];
  readonly looksOf: (row: Row) => readonly PlaceToLook[];
};

/** The warnings on the courses of an instrument, one a course at most: those not yet seen first. */
export function warningsOf(rows: readonly Row[], { strings, seen, looksOf }: Facts): readonly CourseWarning[] {
  const warnings = rows.flatMap((row): CourseWarning[] => {
    const warned = strings.filter(({ course, warning }) => course === row.course && warning !== null);
    const first = warned.find(({ warning }) => warning?.isSeen === false) ?? warned[0];
    if (first === undefined || first.warning === null) return [];
    const { course, string, warning } = first;
    const own = seen.filter((one) => isSeen(warning, { course, string }, [one]));
    const seenAt = warning.isSeen ? (own.at(-1)?.at ?? warning.since) : null;
    return [{ row, string, warning, looks: looksOf(row), seenAt }];
  });
  return warnings.toSorted((a, b) => Number(a.seenAt !== null) - Number(b.seenAt !== null));
}

/** A warning in words: what to do first, the rest of the sentence, and the reason for looking there first. */
export type WarningWords = { readonly strong: string; readonly rest: string; readonly reason: string };

/** `Look at the peg screw of course 2 first, then the tie at the bridge, then the nut slot.` `now` in seconds. */
export function warningWords({ row, warning, looks, seenAt }: CourseWarning, now: number): WarningWords {
  const [first, ...others] = looks.map(({ words }) => words);
  const then = others.map((place) => `, then ${place}`).join('');
  const because = looks[0]?.because ?? null;
  const reason = because === null ? '' : `${capital(because)}.`;
  const what = `Course ${row.number} ${movedWords(row, warning, now)}`;
  if (first === undefined) return { strong: `${what}.`, rest: '', reason: '' };
  if (seenAt !== null) return { strong: '', rest: `${what}; seen ${at(seenAt / 1000, now)}. Look at ${first}${then}.`, reason: '' };
  if (row.verdict === 'slipping') return { strong: `Look at ${first} of course ${row.number} first`, rest: `${then}.`, reason };
  return { strong: `${what}: look at ${first} first`, rest: `${then}.`, reason };
}

/** What the string did: `keeps slipping`, or its last step and that it has been calm since. */
function movedWords({ verdict, strings: [{ assessment }] }: Row, { kind }: Warning, now: number): string {
  const last = assessment.slips.at(-1);
  if (kind === 'keeps-slipping') return 'keeps slipping';
  if (verdict === 'slipping' || last === undefined) return 'is slipping';
  return `slipped ${figure(Math.abs(last.cents))} c by ${at(last.atSeconds, now)}, calm since`;
}
