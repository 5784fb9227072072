import { useMemo } from 'react';
import type { Overview } from '#shared/contract/index.ts';
import { useLibrary } from './library.ts';

/** As far back as is looked for when a tuning was last used. */
const retunesRead = 200;
const never: ReadonlyMap<string, number> = new Map();

/**
 * When each tuning was last gone to, by its id, in epoch milliseconds: on the strings of an instrument, and by the last retune of the others.
 * Empty while `isWanted` is false or the log loads.
 */
export function useLastUsed(overview: Overview, others: readonly Overview[], isWanted: boolean): ReadonlyMap<string, number> {
  const { data: log } = useLibrary('log.read', { stringSetId: overview.stringSet.id, retunes: retunesRead }, isWanted);
  return useMemo(() => {
    if (!isWanted || log === undefined) return never;
    const used = new Map<string, number>();
    for (const { toTuningId, startedAt } of [...log.retunes, ...others.flatMap(({ lastRetune }) => lastRetune ?? [])])
      if (toTuningId !== null) used.set(toTuningId, Math.max(startedAt, used.get(toTuningId) ?? 0));
    return used;
  }, [log, others, isWanted]);
}
