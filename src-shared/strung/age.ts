import type { StringSet } from '#shared/instruments/index.ts';
import type { StringChange } from '#shared/log/index.ts';

const day = 86_400_000;

/** How old the strings of a set are at a moment in epoch milliseconds, in days; never below 0. */
export const daysSinceFitted = ({ fittedAt }: Pick<StringSet, 'fittedAt'>, now: number): number => Math.max(0, (now - fittedAt) / day);

/** The same of one string: since it was changed by itself, else since the set was fitted. `changes` oldest first. */
export function daysSinceChanged(
  stringSet: Pick<StringSet, 'fittedAt'>,
  changes: readonly StringChange[],
  { course, string }: { readonly course: number; readonly string: number },
  now: number,
): number {
  const changed = changes.findLast((one) => one.course === course && one.string === string && one.at <= now);
  return daysSinceFitted({ fittedAt: Math.max(stringSet.fittedAt, changed?.at ?? 0) }, now);
}
