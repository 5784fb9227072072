import type { Overview } from '#shared/contract/index.ts';
import { lastReadingsOfFitted, lastRetunes, type Library, listFittedStringSets, listInstruments } from '../library/index.ts';

/** Every instrument not removed, with the strings on it, its last retune and the last reading of each string. */
export async function readOverview(library: Library): Promise<Overview[]> {
  const stringSets = new Map((await listFittedStringSets(library.rows)).map((set) => [set.id, set]));
  const readings = Map.groupBy(await lastReadingsOfFitted(library.rows), ({ stringSetId }) => stringSetId);
  const overview: Overview[] = [];
  for (const instrument of await listInstruments(library.rows)) {
    const stringSet = stringSets.get(instrument.stringSetId);
    if (stringSet === undefined) throw new Error(`the instrument ${instrument.id} has no string set`);
    const [lastRetune = null] = await lastRetunes(library.rows, stringSet.id, 1);
    overview.push({ instrument, stringSet, lastRetune, lastReadings: readings.get(stringSet.id) ?? [] });
  }
  return overview;
}
