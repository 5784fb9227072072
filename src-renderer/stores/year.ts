import { useQueries } from '@tanstack/react-query';
import { useMemo } from 'react';
import type { FittedSet, Output, Overview } from '#shared/contract/index.ts';
import { useHost } from './host.tsx';
import { useLibrary } from './library.ts';

const day = 86_400_000;
const daysOfYear = 365;

/** What was heard of a string on one day: in epoch milliseconds the day's last reading, in cents from what was wanted then. */
export type Day = Output<'log.summary'>[number];

/** A year of an instrument's strings, day by day, with every set that it had on; times in epoch milliseconds. */
export type Year = { readonly from: number; readonly until: number; readonly days: readonly Day[]; readonly sets: readonly FittedSet[] };

/** The year up to the end of a day, of every string set of an instrument that has as many courses as the one on it; undefined while it loads. */
export function useYear(overview: Overview, now: number): Year | undefined {
  const host = useHost();
  const until = useMemo(() => new Date(now).setHours(24, 0, 0, 0), [now]);
  const from = until - daysOfYear * day;
  const { data: fitted } = useLibrary('instruments.stringSets', { id: overview.instrument.id });
  const sets = fitted?.filter(({ stringSet }) => stringSet.courses.length === overview.stringSet.courses.length);
  const asked = useQueries({
    queries: (sets ?? []).map(({ stringSet }) => {
      const stretches = { stringSetId: stringSet.id, from, until, bucketMilliseconds: day };
      return { queryKey: ['log.summary', stretches], queryFn: () => host.ask('log.summary', stretches) };
    }),
  });
  if (sets === undefined || asked.some(({ data }) => data === undefined)) return undefined;
  return { from, until, sets, days: asked.flatMap(({ data }) => data ?? []) };
}
