import { useQuery } from '@tanstack/react-query';
import { useEffect, useMemo, useState } from 'react';
import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';
import type { Overview, SetVerdicts } from '#shared/contract/index.ts';
import { useNow } from './clock.ts';
import { checkAskedFor, isDue, type PlannedCheck, planThatHolds, reminderKey, remindFrom, watchedMilliseconds } from './due.ts';
import { useHost } from './host.tsx';

/** The checks that stand, by string set, and the reminders that the system was asked to show. */
const planned = createStore<ReadonlyMap<string, PlannedCheck>>(() => new Map());
const shown = new Set<string>();

/** So many instruments are watched, those that were touched last. */
const mostWatched = 8;
const againMilliseconds = 60_000;
/** The host has more to do than this while the window opens. */
const afterStartMilliseconds = 4000;

const touchedAtOf = ({ lastRetune, lastReadings }: Overview): number =>
  Math.max(lastRetune?.finishedAt ?? lastRetune?.startedAt ?? 0, ...lastReadings.map(({ at }) => at));

/** A check that is due now: of which instrument, and which courses, from the player's eye, from 0. */
export type DueCheck = { readonly overview: Overview; readonly courses: readonly number[]; readonly key: string };

/** Watches every instrument that was touched lately. Returns the check that has been due for longest, or null. */
export function useDueCheck(overviews: readonly Overview[]): DueCheck | null {
  const host = useHost();
  const now = useNow();
  const [isReady, setReady] = useState(false);
  useEffect(() => {
    const timer = setTimeout(() => setReady(true), afterStartMilliseconds);
    return () => clearTimeout(timer);
  }, []);
  const watched = useMemo(() => lately(overviews, now), [overviews, now]);
  const stringSetIds = watched.map(({ stringSet }) => stringSet.id);
  const { data } = useQuery({
    queryKey: ['verdicts.read', 'reminder', ...stringSetIds],
    queryFn: () => host.ask('verdicts.read', { stringSetIds }),
    enabled: isReady && stringSetIds.length > 0,
    refetchInterval: againMilliseconds,
  });
  useEffect(() => {
    if (data !== undefined) plan(watched, data);
  }, [data, watched]);
  const checks = useStore(planned);
  const due = watched.flatMap((overview) => {
    const set = data?.find(({ stringSetId }) => stringSetId === overview.stringSet.id);
    const check = checks.get(overview.stringSet.id);
    if (set === undefined || check === undefined || !isDue(check, set.snoozedUntil, now)) return [];
    return [{ overview, courses: check.courses, key: reminderKey(check, set.snoozedUntil), from: remindFrom(check, set.snoozedUntil) }];
  });
  return due.toSorted((a, b) => a.from - b.from)[0] ?? null;
}

const lately = (overviews: readonly Overview[], now: number): readonly Overview[] =>
  overviews
    .filter((overview) => now - touchedAtOf(overview) < watchedMilliseconds)
    .toSorted((a, b) => touchedAtOf(b) - touchedAtOf(a))
    .slice(0, mostWatched);

function plan(watched: readonly Overview[], sets: readonly SetVerdicts[]): void {
  const before = planned.getState();
  const after = new Map(
    watched.flatMap((overview) => {
      const { id } = overview.stringSet;
      const set = sets.find(({ stringSetId }) => stringSetId === id);
      const touchedAt = touchedAtOf(overview);
      // Verdicts from before the strings were touched say nothing of what is next.
      if (set === undefined || set.judgedAt < touchedAt) return [];
      const check = planThatHolds(before.get(id), checkAskedFor(set, touchedAt));
      return check === null ? [] : [[id, check] as const];
    }),
  );
  planned.setState(after, true);
}

/** The check that stands for a string set, in epoch milliseconds and courses; undefined where none does. */
export const usePlannedCheck = (stringSetId: string): PlannedCheck | undefined => useStore(planned, (checks) => checks.get(stringSetId));

/** Asks the system to show a reminder, once, where it may and the window is not being looked at. `onPress` is called where the player answers it. */
export function useNotification(key: string | null, words: string, onPress: () => void): void {
  const host = useHost();
  useEffect(() => {
    if (key === null || shown.has(key) || document.hasFocus()) return;
    if (!('Notification' in globalThis) || Notification.permission !== 'granted') return;
    shown.add(key);
    const notification = new Notification(words, { tag: key });
    notification.addEventListener('click', () => {
      window.focus();
      // A page cannot bring back a window that is in the dock; its host can.
      void host.ask('window.raise', {});
      onPress();
    });
    // One notification a reminder, whatever else changes meanwhile.
    // oxlint-disable-next-line react-hooks/exhaustive-deps
  }, [key]);
}
