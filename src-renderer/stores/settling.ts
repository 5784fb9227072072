import { keepPreviousData, useQueries, useQuery } from '@tanstack/react-query';
import { useMemo } from 'react';
import type { Output, Overview, SetVerdicts, StringState } from '#shared/contract/index.ts';
import { horizonSeconds, isDueAgain, judgeStrings, retunesRead, type StringVerdict as WholeVerdict } from '#shared/strung/index.ts';
import { useNow } from './clock.ts';
import { useHost } from './host.tsx';
import { inTurn } from './in-turn.ts';
import { useLibrary } from './library.ts';
import { stateOf } from './strings.ts';

/** A string with its verdict as lists show it: judged by the host, without a forecast. `warning` tells whether the player has seen it. */
export type StringVerdict = {
  readonly course: number;
  readonly string: number;
  readonly assessment: Pick<StringState, 'verdict' | 'holdsFromSeconds' | 'nextCheckSeconds' | 'driftCents' | 'insideTolerance' | 'why'>;
  readonly warning?: StringState['warning'];
};

export { horizonSeconds, retunesRead };

/** As much of the log of an instrument's strings as is looked back on. */
export const useLog = (overview: Overview | null) =>
  useLibrary('log.read', { stringSetId: overview?.stringSet.id ?? 'none', retunes: retunesRead }, overview !== null);

type Log = Output<'log.read'>;

/** The verdicts on an instrument's strings with their forecasts, from the player's eye down, and the log that they come from; undefined while it loads. */
export function useVerdicts(
  overview: Overview | null,
  toleranceCents: number,
): { readonly log: Log; readonly verdicts: readonly WholeVerdict[] } | undefined {
  const clock = useNow();
  const { data: log } = useLog(overview);
  const { data: tunings } = useLibrary('tunings.list', {});
  const { data: settings } = useLibrary('settings.read', {});
  const wanted = useMemo(
    () =>
      overview === null || tunings === undefined || settings === undefined ? undefined : stateOf(overview, tunings, settings).tuning.hertz,
    [overview, tunings, settings],
  );
  return useMemo(() => {
    if (log === undefined || overview === null || wanted === undefined) return undefined;
    return { log, verdicts: verdictsOf({ stringSet: overview.stringSet, log, wanted, toleranceCents }, clock) };
  }, [log, overview, wanted, clock, toleranceCents]);
}

type Facts = {
  readonly stringSet: Overview['stringSet'];
  readonly log: Log;
  readonly wanted: readonly (readonly number[])[];
  readonly toleranceCents: number;
};
type Judged = { readonly facts: string; readonly judgedAt: number; readonly verdicts: readonly WholeVerdict[] };

/** The latest verdicts on each log: several parts of the window ask for the same ones, and they cost some hundred milliseconds. */
const latest = new WeakMap<Log, Judged>();

/** `clock` moves on in steps: what was heard within the present one is in the log all the same, and counts. */
function verdictsOf({ stringSet, log, wanted, toleranceCents }: Facts, clock: number): readonly WholeVerdict[] {
  const now = Math.max(clock, Date.now());
  const facts = JSON.stringify([stringSet, wanted, toleranceCents]);
  const kept = latest.get(log);
  const touchedAt = Math.max(stringSet.fittedAt, log.readings.at(-1)?.at ?? 0, log.turns.at(-1)?.at ?? 0);
  if (kept?.facts === facts && !isDueAgain({ touchedAt, judgedAt: kept.judgedAt, now })) return kept.verdicts;
  const verdicts = judgeStrings({ stringSet, log, changes: log.changes, wanted, now, toleranceCents });
  latest.set(log, { facts, judgedAt: now, verdicts });
  return verdicts;
}

/** So many instruments are judged for a list, those that were touched or heard last: one takes the host a tenth of a second or two. */
const mostJudged = 24;
/** So many of them are asked for at a time: the host judges in the one thread in which it answers everything. */
const mostAtOnce = 4;
const againMilliseconds = 60_000;

/** The verdicts of all batches; none before every batch is there, so that a list does not change its order time and again. */
const together = (batches: readonly { readonly data: readonly SetVerdicts[] | undefined }[]): readonly SetVerdicts[] =>
  batches.some(({ data }) => data === undefined) ? [] : batches.flatMap(({ data }) => data ?? []);

/**
 * The verdicts on the instruments of a list, by their ids. In a library with more than `mostJudged` of them, one that was left alone for longer than
 * all those is not there. They are asked for a few at a time, and no longer once the list is left.
 */
export function useEveryVerdict(overviews: readonly Overview[], toleranceCents: number): ReadonlyMap<string, readonly StringVerdict[]> {
  const host = useHost();
  const batches = useMemo(() => {
    const judged = new Set(lastTouched(overviews));
    const ids = overviews.filter((one) => judged.has(one)).map(({ stringSet }) => stringSet.id);
    return Array.from({ length: Math.ceil(ids.length / mostAtOnce) }, (_, at) => ids.slice(at * mostAtOnce, (at + 1) * mostAtOnce));
  }, [overviews]);
  const data = useQueries({
    queries: batches.map((stringSetIds) => ({
      queryKey: ['verdicts.read', stringSetIds, toleranceCents],
      queryFn: ({ signal }: { readonly signal: AbortSignal }) => inTurn(signal, () => host.ask('verdicts.read', { stringSetIds })),
      refetchInterval: againMilliseconds,
      placeholderData: keepPreviousData,
    })),
    combine: together,
  });
  return useMemo(() => {
    const bySet = new Map(data.map((set) => [set.stringSetId, set]));
    return new Map(
      overviews.flatMap(({ instrument, stringSet }) => {
        const set = bySet.get(stringSet.id);
        return set === undefined ? [] : [[instrument.id, listed(set)] as const];
      }),
    );
  }, [data, overviews]);
}

const lastTouched = (overviews: readonly Overview[]): readonly Overview[] => {
  const touchedAt = new Map(
    overviews.map((one) => [one, Math.max(one.lastRetune?.startedAt ?? 0, ...one.lastReadings.map(({ at }) => at))]),
  );
  return overviews.toSorted((a, b) => (touchedAt.get(b) ?? 0) - (touchedAt.get(a) ?? 0)).slice(0, mostJudged);
};

/** How an instrument's strings stand, without their forecasts; undefined while that loads. */
export function useStanding(overview: Overview | null): SetVerdicts | undefined {
  const host = useHost();
  const id = overview?.stringSet.id;
  const { data } = useQuery({
    queryKey: ['verdicts.read', id],
    queryFn: async () => (await host.ask('verdicts.read', { stringSetIds: id === undefined ? [] : [id] }))[0] ?? null,
    enabled: id !== undefined,
    refetchInterval: againMilliseconds,
  });
  return data ?? undefined;
}

/** The verdicts in the shape of `useEveryVerdict`. */
export const listed = ({ strings }: SetVerdicts): readonly StringVerdict[] =>
  strings.map(({ course, string, warning, ...assessment }) => ({ course, string, assessment, warning }));
