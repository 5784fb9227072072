import { centsBetween, hertz } from '#shared/units/index.ts';
import type { LogRows, Reading, Retune, Turn } from './rows.ts';

/** One retune as a single string lived it: cents from wanted, seconds of the epoch, oldest first. */
type Stretch = {
  readonly moves: readonly { readonly atSeconds: number; readonly cents: number }[];
  readonly readings: readonly { readonly atSeconds: number; readonly cents: number; readonly sigmaCents: number }[];
};

/** The stretch since the latest retune, and the earlier ones of the same string. */
export type StringHistory = Stretch & { readonly past: readonly Stretch[] };

const seconds = (milliseconds: number): number => milliseconds / 1000;

/**
 * Sorts a string set's log into the history of one string, a stretch a retune: what settling is worked out from.
 * Readings from before the first retune count as a stretch without moves.
 *
 * The cents of a stretch are all from one pitch, though the reference pitch may have been changed amid it: an earlier stretch's from what its retune
 * wanted, the latest one's from `wantedHertz`, what is wanted now. Where that is not given, cents are as they were written down.
 */
export function stringHistory(log: LogRows, course: number, string: number, wantedHertz?: number): StringHistory {
  const here = (row: { course: number; string: number }): boolean => row.course === course && row.string === string;
  const readings = log.readings.filter(here);
  const turns = log.turns.filter(here);
  const stretch = (retune: Retune | null, until: number): Stretch => {
    const from = retune?.startedAt ?? 0;
    const wanted = until === Number.POSITIVE_INFINITY ? wantedHertz : retune?.wantedHertz[course]?.[string];
    return {
      moves: turns.filter((turn) => turn.retuneId === retune?.id).map((turn) => ({ atSeconds: seconds(turn.at), cents: turn.cents })),
      readings: readings
        .filter((reading) => reading.at >= from && reading.at < until)
        .map((reading) => ({ atSeconds: seconds(reading.at), cents: centsFrom(wanted, reading), sigmaCents: reading.sigmaCents })),
    };
  };
  const stretches = [null, ...log.retunes].map((retune, index) =>
    stretch(retune, log.retunes[index]?.startedAt ?? Number.POSITIVE_INFINITY),
  );
  const latest = stretches.at(-1) ?? stretch(null, Number.POSITIVE_INFINITY);
  return { ...latest, past: stretches.slice(0, -1).filter((one) => one.readings.length > 0) };
}

const centsFrom = (wantedHertz: number | undefined, reading: Reading): number =>
  wantedHertz === undefined ? reading.deviationCents : centsBetween(hertz(reading.hertz), hertz(wantedHertz));

/** The last reading of one string, or null where it was never heard. */
export const lastHeard = (readings: readonly Reading[], course: number, string: number): Reading | null =>
  readings.findLast((reading) => reading.course === course && reading.string === string) ?? null;

/** How far a string was turned since it was last heard, in cents, positive = tightened; `at` is its last turn. */
export type TurnedSinceHeard = { readonly course: number; readonly string: number; readonly cents: number; readonly at: number };

/**
 * Which strings were turned since they were last heard, and how far altogether. `last` has the last reading of each string. A reading of the same
 * moment as a turn was made after it. One that was never heard is left out: a turn says from where to where only together with a reading.
 */
export const turnedSinceHeard = (last: readonly Reading[], turns: readonly Turn[]): TurnedSinceHeard[] =>
  last.flatMap(({ course, string, at: heardAt }) => {
    const since = turns.filter((turn) => turn.course === course && turn.string === string && turn.at > heardAt);
    const latest = since.reduce((late, { at }) => Math.max(late, at), 0);
    return since.length === 0 ? [] : [{ course, string, cents: since.reduce((sum, { cents }) => sum + cents, 0), at: latest }];
  });

/**
 * Where every string is, in hertz: as it was last heard and as far as it was turned since, else as `assumed` (the tuning that the instrument is in)
 * says.
 */
export const presentHertz = (
  readings: readonly Reading[],
  assumed: readonly (readonly number[])[],
  turned: readonly TurnedSinceHeard[] = [],
): readonly (readonly number[])[] =>
  assumed.map((strings, course) =>
    strings.map((hertz, string) => {
      const heard = lastHeard(readings, course, string)?.hertz;
      const cents = turned.find((one) => one.course === course && one.string === string)?.cents ?? 0;
      return heard === undefined ? hertz : heard * 2 ** (cents / 1200);
    }),
  );

/** A retune of the whole instrument, in seconds of the epoch: what a coach learns from. */
type RetuneHistory = {
  readonly startedAtSeconds: number;
  readonly wanted: readonly (readonly number[])[];
  readonly turns: readonly { readonly atSeconds: number; readonly course: number; readonly string: number; readonly cents: number }[];
  readonly readings: readonly {
    readonly atSeconds: number;
    readonly course: number;
    readonly string: number;
    readonly hertz: number;
    readonly sigmaCents: number;
  }[];
};

/** The retunes of a string set, each with its turns and with what was read until the next, oldest first. */
export const retuneHistories = ({ retunes, turns, readings }: LogRows): readonly RetuneHistory[] =>
  retunes.map(({ id, startedAt, wantedHertz }, index) => {
    const until = retunes[index + 1]?.startedAt ?? Number.POSITIVE_INFINITY;
    return {
      startedAtSeconds: seconds(startedAt),
      wanted: wantedHertz,
      turns: turns
        .filter(({ retuneId }) => retuneId === id)
        .map(({ at, course, string, cents }) => ({ atSeconds: seconds(at), course, string, cents })),
      readings: readings
        .filter(({ at }) => at >= startedAt && at < until)
        .map(({ at, course, string, hertz, sigmaCents }) => ({ atSeconds: seconds(at), course, string, hertz, sigmaCents })),
    };
  });
