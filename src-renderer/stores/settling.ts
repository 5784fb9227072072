import { useQueries, type UseQueryResult } from '@tanstack/react-query';
import { useEffect, useMemo, useState } from 'react';
import type { Overview } from '#shared/contract/index.ts';
import { type LogRows, stringHistory } from '#shared/log/index.ts';
import { type Assessment, assess } from '#shared/settling/index.ts';
import { useNow } from './clock.ts';
import { useHost } from './host.tsx';
import { useLibrary } from './library.ts';
import { daysSinceFitted } from './strings.ts';

/** One string's part of an instrument's state: which it is, its log and its verdict. */
export type StringVerdict = { readonly course: number; readonly string: number; readonly assessment: Assessment };

export const horizonSeconds = 1800;
export const retunesRead = 12;

/** As much of the log of an instrument's strings as is looked back on. */
export const useLog = (overview: Overview | null) =>
  useLibrary('log.read', { stringSetId: overview?.stringSet.id ?? 'none', retunes: retunesRead }, overview !== null);

/** The verdicts on an instrument's strings, from the player's eye down, and the log that they come from; undefined while it loads. */
export function useVerdicts(
  overview: Overview | null,
  toleranceCents: number,
): { readonly log: LogRows; readonly verdicts: readonly StringVerdict[] } | undefined {
  const now = useNow();
  const { data: log } = useLog(overview);
  return useMemo(() => {
    if (log === undefined || overview === null) return undefined;
    return { log, verdicts: verdictsOf(overview, log, now, toleranceCents) };
  }, [log, overview, now, toleranceCents]);
}

const minute = 60_000;
const dataOf = (results: readonly UseQueryResult<LogRows>[]) => results.map(({ data }) => data);

/** The verdicts on every instrument, by its id; an instrument that is not judged yet is not there. */
export function useEveryVerdict(overviews: readonly Overview[], toleranceCents: number): ReadonlyMap<string, readonly StringVerdict[]> {
  const host = useHost();
  // Many strings take a while to judge: once a minute is enough here. The minute that has begun, so that no reading lies after it.
  const now = Math.ceil(useNow() / minute) * minute;
  const logs = useQueries({
    queries: overviews.map(({ stringSet }) => {
      const input = { stringSetId: stringSet.id, retunes: retunesRead };
      return { queryKey: ['log.read', input], queryFn: (): Promise<LogRows> => host.ask('log.read', input) };
    }),
    combine: dataOf,
  });
  const [judged, setJudged] = useState<ReadonlyMap<string, readonly StringVerdict[]>>(new Map());
  useEffect(() => {
    let isWanted = true;
    // One instrument at a time, and the window between them: judging all at once would hold it up for a few hundred milliseconds.
    const judgeAll = async () => {
      const verdicts = new Map<string, readonly StringVerdict[]>();
      for (const [index, overview] of overviews.entries()) {
        const log = logs[index];
        if (log === undefined) continue;
        await nextTask();
        if (!isWanted) return;
        verdicts.set(overview.instrument.id, verdictsOf(overview, log, now, toleranceCents));
      }
      setJudged(verdicts);
    };
    void judgeAll();
    return () => {
      isWanted = false;
    };
  }, [overviews, logs, now, toleranceCents]);
  return judged;
}

const nextTask = (): Promise<void> => new Promise((resolve) => setTimeout(resolve));

type Judged = {
  readonly stringSet: Overview['stringSet'];
  readonly now: number;
  readonly toleranceCents: number;
  readonly verdicts: readonly StringVerdict[];
};

/** The latest verdicts on each log: several parts of the window ask for the same ones at the same moment, and they cost a few hundred milliseconds. */
const latest = new WeakMap<LogRows, Judged>();

function verdictsOf({ stringSet }: Overview, log: LogRows, now: number, toleranceCents: number): readonly StringVerdict[] {
  const kept = latest.get(log);
  if (kept?.stringSet === stringSet && kept.now === now && kept.toleranceCents === toleranceCents) return kept.verdicts;
  const verdicts = judge(stringSet, log, now, toleranceCents);
  latest.set(log, { stringSet, now, toleranceCents, verdicts });
  return verdicts;
}

function judge(stringSet: Overview['stringSet'], log: LogRows, now: number, toleranceCents: number): readonly StringVerdict[] {
  const places = stringSet.courses.flatMap(({ strings }, course) => strings.map((facts, string) => ({ course, string, facts })));
  const assessments = assess({
    courses: places.map(({ course, string, facts: { material, wound } }) => ({
      string: { material, wound, daysSinceChange: daysSinceFitted(stringSet, now) },
      ...stringHistory(log, course, string),
    })),
    nowSeconds: now / 1000,
    policy: { toleranceCents, horizonSeconds },
  });
  return places.flatMap(({ course, string }, index) => {
    const assessment = assessments[index];
    return assessment === undefined ? [] : [{ course, string, assessment }];
  });
}
