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

/** `clock` moves on in steps: what was turned or heard within the present one is in the log all the same, and counts. */
function verdictsOf({ stringSet, log, wanted, toleranceCents }: Facts, clock: number): readonly WholeVerdict[] {
  const facts = JSON.stringify([stringSet, wanted, toleranceCents]);
  const kept = latest.get(log);
  const touchedAt = Math.max(stringSet.fittedAt, log.readings.at(-1)?.at ?? 0, log.turns.at(-1)?.at ?? 0);
  const now = Math.max(clock, touchedAt);
  if (kept?.facts === facts && !isDueAgain({ touchedAt, judgedAt: kept.judgedAt, now })) return kept.verdicts;
  const verdicts = judgeStrings({ stringSet, log, changes: log.changes, wanted, now, toleranceCents });
  latest.set(log, { facts, judgedAt: now, verdicts });
  return verdicts;
}

/** So many instruments, those that were touched or heard last, are asked for at once, a few at a time: one takes the host a tenth of a second or two. */
const mostAtOnce = 24;
const fewAtATime = 4;
const againMilliseconds = 60_000;

/** The verdicts of all batches; none before every batch is there, so that a list does not change its order time and again. */
const together = (batches: readonly { readonly data: readonly SetVerdicts[] | undefined }[]): readonly SetVerdicts[] =>
  batches.some(({ data }) => data === undefined) ? [] : batches.flatMap(({ data }) => data ?? []);

type Batches = {
  readonly overviews: readonly Overview[];
  readonly atATime: number;
  readonly toleranceCents: number;
  readonly isEnabled: boolean;
  readonly isAskedAgain: boolean;
};

/** The verdicts on some instruments, asked for so many at a time, one request after the other, and no longer once the list is left. */
function useBatches({ overviews, atATime, toleranceCents, isEnabled, isAskedAgain }: Batches): readonly SetVerdicts[] {
  const host = useHost();
  const ids = overviews.map(({ stringSet }) => stringSet.id);
  const batches = Array.from({ length: Math.ceil(ids.length / atATime) }, (_, at) => ids.slice(at * atATime, (at + 1) * atATime));
  return useQueries({
    queries: batches.map((stringSetIds) => ({
      queryKey: ['verdicts.read', stringSetIds, toleranceCents],
      queryFn: ({ signal }: { readonly signal: AbortSignal }) => inTurn(signal, () => host.ask('verdicts.read', { stringSetIds })),
      enabled: isEnabled,
      refetchInterval: isAskedAgain ? againMilliseconds : (false as const),
      placeholderData: keepPreviousData,
    })),
    combine: together,
  });
}

/**
 * The verdicts on the instruments of a list, by their ids. Those that were touched last come first and are asked for again every minute; the others
 * follow together once they are there, most of them as the library has kept them.
 */
export function useEveryVerdict(overviews: readonly Overview[], toleranceCents: number): ReadonlyMap<string, readonly StringVerdict[]> {
  const [first, others] = useMemo(() => {
    const inOrder = lastTouched(overviews);
    const early = new Set(inOrder.slice(0, mostAtOnce));
    // In the order of the library, so that touching one does not make every other request another one.
    return [overviews.filter((one) => early.has(one)), overviews.filter((one) => !early.has(one))];
  }, [overviews]);
  const known = useBatches({ overviews: first, atATime: fewAtATime, toleranceCents, isEnabled: true, isAskedAgain: true });
  const rest = useBatches({ overviews: others, atATime: mostAtOnce, toleranceCents, isEnabled: known.length > 0, isAskedAgain: false });
  return useMemo(() => {
    const bySet = new Map([...known, ...rest].map((set) => [set.stringSetId, set]));
    return new Map(
      overviews.flatMap(({ instrument, stringSet }) => {
        const set = bySet.get(stringSet.id);
        return set === undefined ? [] : [[instrument.id, listed(set)] as const];
      }),
    );
  }, [known, rest, overviews]);
}

const lastTouched = (overviews: readonly Overview[]): readonly Overview[] => {
  const touchedAt = new Map(
    overviews.map((one) => [one, Math.max(one.lastRetune?.startedAt ?? 0, ...one.lastReadings.map(({ at }) => at))]),
  );
  return overviews.toSorted((a, b) => (touchedAt.get(b) ?? 0) - (touchedAt.get(a) ?? 0));
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
