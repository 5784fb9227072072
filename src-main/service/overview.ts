import type { Overview } from '#shared/contract/index.ts';
import { turnedSinceHeard } from '#shared/log/index.ts';
import {
  lastReadingsOfFitted,
  lastRetunes,
  lastTurnsOfFitted,
  type Library,
  listFittedStringSets,
  listInstruments,
} from '../library/index.ts';

/** Every instrument not removed, with the strings on it, its last retune, the last reading of each string and what was turned since: six queries, however many there are. */
export async function readOverview({ rows }: Library): Promise<Overview[]> {
  const stringSets = new Map((await listFittedStringSets(rows)).map((set) => [set.id, set]));
  const retunes = new Map((await lastRetunes(rows, [...stringSets.keys()], 1)).map((retune) => [retune.stringSetId, retune]));
  const readings = Map.groupBy(await lastReadingsOfFitted(rows), ({ stringSetId }) => stringSetId);
  const turns = Map.groupBy(await lastTurnsOfFitted(rows), ({ stringSetId }) => stringSetId);
  const instruments = await listInstruments(rows);
  return instruments.map((instrument) => {
    const stringSet = stringSets.get(instrument.stringSetId);
    if (stringSet === undefined) throw new Error(`the instrument ${instrument.id} has no string set`);
    const lastReadings = readings.get(stringSet.id) ?? [];
    return {
      instrument,
      stringSet,
      lastRetune: retunes.get(stringSet.id) ?? null,
      lastReadings,
      turnedSinceHeard: turnedSinceHeard(lastReadings, turns.get(stringSet.id) ?? []),
    };
  });
}
