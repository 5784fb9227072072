import { useMutation, useQueryClient } from '@tanstack/react-query';
import type { Host } from '#shared/contract/index.ts';
import { type Reading, readingRow } from '#shared/log/index.ts';
import type { Strings } from '#shared/matching/index.ts';
import { centsBetween, hertz } from '#shared/units/index.ts';
import { useHost } from './host.tsx';
import type { TuningHere } from './strings.ts';
import { noteDone } from './undo.ts';
import type { Candidate, Which } from './which.ts';

const stamp = () => ({ id: crypto.randomUUID(), at: Date.now() });

/** A string further from where the log has it than this was turned meanwhile, in cents: its creep begins anew. */
const turnedCents = 60;

type Found = { readonly which: Which; readonly candidate: Candidate; readonly present: Strings };

/** Takes the instrument to be in a tuning, where it was heard: the readings are written down, and it can be taken back. */
export function useBeIn() {
  const host = useHost();
  const client = useQueryClient();
  return useMutation<unknown, Error, Found>({
    mutationFn: (found) => beIn(host, found),
    onSuccess: () => client.invalidateQueries(),
  });
}

async function beIn(host: Host, { which: { overview, state, plucked }, candidate, present }: Found): Promise<void> {
  const { instrument, stringSet } = overview;
  const isTurned = differs(present, state.present) || differs(candidate.here.hertz, state.tuning.hertz);
  const before = { tuningId: instrument.tuningId, here: state.tuning };
  const after = { tuningId: candidate.tuning?.id ?? null, here: candidate.here };
  const retuneId = isTurned ? await noteRetune(host, instrument.id, stringSet.id, before, after) : (overview.lastRetune?.id ?? null);
  await host.ask('instruments.save', { instrument: { ...instrument, tuningId: after.tuningId }, stringSet });
  const readings = present.flatMap((strings, course) =>
    strings.flatMap((heard, string): Reading[] => {
      const wantedHertz = candidate.here.hertz[course]?.[string];
      const sigmaCents = plucked.gathering.pitches.find((one) => one.hertz === heard)?.sigmaCents;
      if (wantedHertz === undefined || sigmaCents === undefined) return [];
      const of = { ...stamp(), stringSetId: stringSet.id, retuneId, wantedHertz, source: 'pluck' as const };
      return [readingRow({ course, string, hertz: heard, sigmaCents }, of)];
    }),
  );
  await host.ask('log.append', { readings });
  noteDone(`${instrument.name} is taken to be in ${candidate.here.name}`, async () => {
    if (isTurned) await noteRetune(host, instrument.id, stringSet.id, after, before);
    await host.ask('instruments.save', { instrument, stringSet });
    await host.ask('log.append', { corrections: readings.map(({ id }) => ({ ...stamp(), readingId: id, isWrong: true })) });
  });
}

type Place = { readonly tuningId: string | null; readonly here: TuningHere };

/** It was turned while nobody listened: the log gets a retune without turns, so that what was learned before is not taken for a slip. */
async function noteRetune(host: Host, instrumentId: string, stringSetId: string, from: Place, to: Place): Promise<string> {
  const { id, at } = stamp();
  await host.ask('log.beginRetune', {
    id,
    instrumentId,
    stringSetId,
    fromTuningId: from.tuningId,
    toTuningId: to.tuningId,
    startedAt: at,
    finishedAt: null,
    wantedHertz: to.here.hertz.map((strings) => [...strings]),
  });
  await host.ask('log.finishRetune', { id, finishedAt: at });
  return id;
}

const differs = (one: Strings, other: Strings): boolean =>
  one.some((strings, course) =>
    strings.some((at, string) => Math.abs(centsBetween(hertz(at), hertz(other[course]?.[string] ?? at))) > turnedCents),
  );
