import type { Overview, Settings } from '#shared/contract/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';
import { pullAt } from '../../stores/pull.ts';
import { tuningOn } from '../../stores/strings.ts';
import { type Margin, marginWords, worstMargin } from '../margins.ts';

/** A tuning that an instrument has the courses for, and the margin that is used up first in it. */
export type Taken = { readonly id: string; readonly name: string; readonly margin: Margin | null };

/** What an instrument can take: within the limits of its strings, and beyond them; each with the widest margin first. */
export function takenBy(
  overview: Overview,
  tunings: readonly Tuning[],
  settings: Settings,
): { readonly within: readonly Taken[]; readonly beyond: readonly Taken[]; readonly otherCourses: number } {
  const taken = tunings.flatMap((tuning): Taken[] => {
    const to = tuningOn(overview, tuning, settings);
    if (to === null) return [];
    const pulls = to.hertz.flatMap((strings, course) => strings.map((pitch, string) => pullAt(overview, course, string, pitch)));
    return [{ id: tuning.id, name: tuning.name, margin: worstMargin(pulls) }];
  });
  const left = ({ margin }: Taken): number => margin?.semitones ?? Number.POSITIVE_INFINITY;
  const sorted = taken.toSorted((a, b) => left(b) - left(a) || a.name.localeCompare(b.name));
  return {
    within: sorted.filter((one) => left(one) > 0),
    beyond: sorted.filter((one) => left(one) <= 0),
    otherCourses: tunings.length - taken.length,
  };
}

/** What is said of a tuning that is beyond the limits: the string is too slack in it, or past its limit. */
export const beyondWords = ({ name, margin }: Taken): string => (margin === null ? name : `${name} (${marginWords(margin)})`);
