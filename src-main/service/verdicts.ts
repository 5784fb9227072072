import type { Input, Output, SetVerdicts, Settings } from '#shared/contract/index.ts';
import { homePitches, type StringSet } from '#shared/instruments/index.ts';
import { isSeen, warningOf, type WarningSeen } from '#shared/log/index.ts';
import { isDueAgain, judgeStrings, retunesRead, type StringVerdict } from '#shared/strung/index.ts';
import { carry, type Tuning, wantedHertz } from '#shared/tunings/index.ts';
import { hertz } from '#shared/units/index.ts';
import {
  asFailure,
  changesSoFar,
  findStringSets,
  type Judgement,
  keepJudgements,
  keptJudgements,
  type Library,
  snoozedUntil,
  tuningsOfSets,
  warningsSeenOf,
} from '../library/index.ts';
import { logsOf } from './log.ts';
import { readSettings } from './settings.ts';

type Log = Parameters<typeof judgeStrings>[0]['log'];

/** The pitches that a string set is to sound: of the tuning that it is in, else of its home. */
function wantedOn(stringSet: StringSet, tuning: Tuning | undefined, { referenceHertz }: Settings): readonly (readonly number[])[] {
  const home = homePitches(stringSet);
  const carried = tuning === undefined ? null : carry(tuning, home);
  return carried === null || tuning === undefined
    ? wantedHertz(home, null, hertz(referenceHertz))
    : wantedHertz(carried.pitches, tuning.courses, hertz(referenceHertz));
}

const nextTask = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

/** Everything that a verdict rests on but the time and the log, as a text that differs where anything does. */
const factsOf = (stringSet: StringSet, wanted: readonly (readonly number[])[], tolerance: number, version: string): string =>
  JSON.stringify([version, stringSet, wanted, tolerance]);

/** A string set to be judged. */
type Asked = { readonly stringSet: StringSet; readonly wanted: readonly (readonly number[])[]; readonly facts: string };

/**
 * How the strings of these sets stand at `now`; a set that is not there is left out. Verdicts that still hold are taken from those that the library
 * keeps; only for the others is the log read. One set is judged at a time, with other requests answered in between. `version` is the app's: another
 * one may judge otherwise.
 */
export async function readVerdicts(
  library: Library,
  { stringSetIds }: Input<'verdicts.read'>,
  now: number,
  version: string,
): Promise<Output<'verdicts.read'>> {
  const { rows } = library;
  const settings = await readSettings(library);
  const { toleranceCents } = settings;
  const tunings = await tuningsOfSets(rows, stringSetIds);
  const sets = (await findStringSets(rows, stringSetIds)).map((stringSet): Asked => {
    const wanted = wantedOn(stringSet, tunings.get(stringSet.id), settings);
    return { stringSet, wanted, facts: factsOf(stringSet, wanted, toleranceCents, version) };
  });
  const kept = await keptJudgements(rows, stringSetIds);
  const holds = ({ stringSet: { id }, facts }: Asked): boolean => {
    const judged = kept.get(id);
    return judged?.facts === facts && !isDueAgain({ ...judged, now });
  };
  const fresh = await judge(
    rows,
    sets.filter((one) => !holds(one)),
    now,
    toleranceCents,
  );
  const seen = Map.groupBy(await warningsSeenOf(rows, stringSetIds), ({ stringSetId }) => stringSetId);
  const snoozed = await snoozedUntil(rows, stringSetIds);
  return sets.flatMap(({ stringSet: { id } }): SetVerdicts[] => {
    const judged = fresh.get(id) ?? kept.get(id);
    if (judged === undefined) return [];
    const strings = judged.strings.map((one) => withSeen(one, seen.get(id) ?? []));
    return [{ stringSetId: id, judgedAt: judged.judgedAt, snoozedUntil: snoozed.get(id) ?? null, strings }];
  });
}

/** Judges string sets from their logs, one at a time, and keeps what came of it. */
async function judge(
  rows: Library['rows'],
  sets: readonly Asked[],
  now: number,
  toleranceCents: number,
): Promise<ReadonlyMap<string, Judgement>> {
  if (sets.length === 0) return new Map();
  const asOf = await changesSoFar(rows);
  const logs = await logsOf(
    rows,
    sets.map(({ stringSet }) => stringSet.id),
    retunesRead,
  );
  const judged = new Map<string, Judgement>();
  for (const { stringSet, wanted, facts } of sets) {
    const log = logs.get(stringSet.id);
    if (log === undefined) continue;
    await nextTask();
    const touchedAt = Math.max(stringSet.fittedAt, log.readings.at(-1)?.at ?? 0, log.turns.at(-1)?.at ?? 0);
    const strings = judgeStrings({ stringSet, log, changes: log.changes, wanted, now, toleranceCents }).map((one) => stateOf(one, log));
    judged.set(stringSet.id, { stringSetId: stringSet.id, facts, judgedAt: now, touchedAt, strings });
  }
  try {
    await keepJudgements(rows, [...judged.values()], asOf);
  } catch (fault) {
    // Where there is no room to keep them they are made anew each time.
    if (asFailure(fault)?.code !== 'disk-full') throw fault;
  }
  return judged;
}

/** A verdict as plain data. */
function stateOf({ course, string, assessment }: StringVerdict, log: Log): SetVerdicts['strings'][number] {
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
    warning: warning === null ? null : { ...warning, isSeen: false },
  };
}

/** The same with whether the player has seen what it warns of. */
const withSeen = ({ warning, ...state }: SetVerdicts['strings'][number], seen: readonly WarningSeen[]): SetVerdicts['strings'][number] => ({
  ...state,
  warning: warning === null ? null : { ...warning, isSeen: isSeen(warning, state, seen) },
});
