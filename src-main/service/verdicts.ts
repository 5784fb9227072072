import type { Input, Output, SetVerdicts, Settings } from '#shared/contract/index.ts';
import { homePitches, type StringSet } from '#shared/instruments/index.ts';
import { isSeen, warningOf, type WarningSeen } from '#shared/log/index.ts';
import { isDueAgain, judgeStrings, retunesRead, type StringVerdict } from '#shared/strung/index.ts';
import { carry, type Tuning, wantedHertz } from '#shared/tunings/index.ts';
import { hertz } from '#shared/units/index.ts';
import { findStringSets, type Library, snoozedUntil, tuningsOfSets, warningsSeenOf } from '../library/index.ts';
import { logsOf } from './log.ts';
import { readSettings } from './settings.ts';

type Log = Parameters<typeof judgeStrings>[0]['log'];
type Judged = { readonly facts: string; readonly judgedAt: number; readonly touchedAt: number; readonly strings: readonly StringVerdict[] };

/** Verdicts that were made, by string set: they take a while, and hold as long as neither the facts change nor much time goes by. */
export type VerdictMemory = Map<string, Judged>;

/** The pitches that a string set is to sound: of the tuning that it is in, else of its home. */
function wantedOn(stringSet: StringSet, tuning: Tuning | undefined, { referenceHertz }: Settings): readonly (readonly number[])[] {
  const home = homePitches(stringSet);
  const carried = tuning === undefined ? null : carry(tuning, home);
  return carried === null || tuning === undefined
    ? wantedHertz(home, null, hertz(referenceHertz))
    : wantedHertz(carried.pitches, tuning.courses, hertz(referenceHertz));
}

const nextTask = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

/** Everything that a verdict rests on but the time, as a text that differs where anything does. */
const factsOf = (
  stringSet: StringSet,
  wanted: readonly (readonly number[])[],
  { retunes, turns, readings }: Log,
  tolerance: number,
): string => JSON.stringify([stringSet, wanted, tolerance, [retunes, turns, readings].map((rows) => rows.map(({ id }) => id))]);

/**
 * How the strings of these sets stand at `now`; a set that is not there is left out. One set is judged at a time, with other requests answered in
 * between, and verdicts that still hold are taken from `memory`.
 */
export async function readVerdicts(
  library: Library,
  { stringSetIds }: Input<'verdicts.read'>,
  now: number,
  memory: VerdictMemory,
): Promise<Output<'verdicts.read'>> {
  const { rows } = library;
  const settings = await readSettings(library);
  const tunings = await tuningsOfSets(rows, stringSetIds);
  const sets = await findStringSets(rows, stringSetIds);
  const logs = await logsOf(rows, stringSetIds, retunesRead);
  const seen = Map.groupBy(await warningsSeenOf(rows, stringSetIds), ({ stringSetId }) => stringSetId);
  const snoozed = await snoozedUntil(rows, stringSetIds);
  const answer: SetVerdicts[] = [];
  for (const stringSet of sets) {
    const log = logs.get(stringSet.id);
    if (log === undefined) continue;
    const wanted = wantedOn(stringSet, tunings.get(stringSet.id), settings);
    const facts = factsOf(stringSet, wanted, log, settings.toleranceCents);
    let judged = memory.get(stringSet.id);
    if (judged === undefined || judged.facts !== facts || isDueAgain({ ...judged, now })) {
      await nextTask();
      const { toleranceCents } = settings;
      const touchedAt = Math.max(stringSet.fittedAt, log.readings.at(-1)?.at ?? 0, log.turns.at(-1)?.at ?? 0);
      judged = {
        facts,
        judgedAt: now,
        touchedAt,
        strings: judgeStrings({ stringSet, log, changes: log.changes, wanted, now, toleranceCents }),
      };
      memory.set(stringSet.id, judged);
    }
    answer.push({
      stringSetId: stringSet.id,
      judgedAt: judged.judgedAt,
      snoozedUntil: snoozed.get(stringSet.id) ?? null,
      strings: judged.strings.map((one) => stateOf(one, log, seen.get(stringSet.id) ?? [])),
    });
  }
  return answer;
}

/** A verdict as plain data, with whether what it warns of was seen. */
function stateOf({ course, string, assessment }: StringVerdict, log: Log, seen: readonly WarningSeen[]): SetVerdicts['strings'][number] {
  const { verdict, holdsFromSeconds, nextCheckSeconds, driftCents, insideTolerance, why } = assessment;
  const warning = warningOf(assessment, log.retunes);
  return {
    course,
    string,
    verdict,
    holdsFromSeconds,
    nextCheckSeconds,
    driftCents,
    insideTolerance,
    why,
    warning: warning === null ? null : { ...warning, isSeen: isSeen(warning, { course, string }, seen) },
  };
}
