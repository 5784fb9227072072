import { courseNumber, homePitches, type StringSet } from '#shared/instruments/index.ts';
import { type Tuning, wantedHertz } from '#shared/tunings/index.ts';
import { centsBetween, hertz } from '#shared/units/index.ts';
import type { Way } from '../../stores/plan.ts';
import { listed } from '../../ui/words.ts';

/**
 * Where a way leads when some of its courses are left where they are: a tuning of its own, in no library, whose left courses have the pitches that
 * the instrument is in.
 */
export function leaving({ from, to }: Way, left: readonly number[], stringSet: StringSet, referenceHertz: number): Tuning {
  const numbers = left.map((course) => courseNumber(course, to.pitches.length));
  const courses = to.pitches.map((pitches, course) => {
    const here = left.includes(course) ? from : to;
    const own = left.includes(course) ? (from.pitches[course] ?? pitches) : pitches;
    const plain = wantedHertz([own], null, hertz(referenceHertz))[0]?.[0];
    const wanted = here.hertz[course]?.[0];
    const offsetCents = plain === undefined || wanted === undefined ? 0 : centsBetween(hertz(wanted), plain);
    return { pitches: [...own], offsetCents };
  });
  return {
    id: 'leaving',
    name: `${to.name} without ${left.length === 1 ? 'course' : 'courses'} ${listed(numbers)}`,
    courses,
    home: homePitches(stringSet).map((strings) => [...strings]),
    favourite: false,
    tags: [],
    notes: '',
  };
}
