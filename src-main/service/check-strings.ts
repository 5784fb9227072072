import { HostFailure, type LogAddition } from '#shared/contract/index.ts';
import { findStringSets, type Library, setsOfRetunes } from '../library/index.ts';

type Place = { readonly course: number; readonly string: number };

/**
 * Sees to it that every row names a string that its string set has. Throws `bad-input` with the name of the set where one does not; a set or a
 * retune that is not there is left for the tables to refuse.
 */
export async function checkStrings(
  rows: Library['rows'],
  { turns, readings, warningsSeen }: Pick<LogAddition, 'turns' | 'readings' | 'warningsSeen'>,
): Promise<void> {
  const setOfRetune = await setsOfRetunes(rows, [...new Set(turns.map(({ retuneId }) => retuneId))]);
  const places: readonly (Place & { readonly stringSetId: string | undefined })[] = [
    ...turns.map(({ retuneId, course, string }) => ({ stringSetId: setOfRetune.get(retuneId), course, string })),
    ...readings,
    ...warningsSeen,
  ];
  const sets = await findStringSets(rows, [...new Set(places.flatMap(({ stringSetId }) => stringSetId ?? []))]);
  const byId = new Map(sets.map((set) => [set.id, set]));
  for (const { stringSetId, course, string } of places) {
    const set = stringSetId === undefined ? undefined : byId.get(stringSetId);
    if (set !== undefined && set.courses[course]?.strings[string] === undefined) throw noSuchString(set.name);
  }
}

/** What a row is refused with that names a string which is not there. */
export const noSuchString = (setName: string): HostFailure =>
  new HostFailure('bad-input', `“${setName}” has no such string: nothing was written.`);
