import type { Output } from '#shared/contract/index.ts';
import type { Reading } from '#shared/log/index.ts';
import { horizonSeconds } from '../../stores/settling.ts';
import { figure } from '../../ui/words.ts';
import type { StringRow } from './rows.ts';

/** One line of the table: what happened to a string, or is expected of it. Seconds of the epoch; cents from wanted with the ends of the 90 % band, or null. */
export type Event = {
  readonly seconds: number;
  readonly what: string;
  readonly cents: { readonly cents: number; readonly low: number; readonly high: number } | null;
  /** The row of the log that it tells of, where the player can mark that as wrong or take it back in. */
  readonly marks: { readonly reading: Reading; readonly isWrong: boolean } | null;
};

/** The readings of one string in the retune that it is in: those that count, and those that are marked as wrong. */
type Logged = { readonly counting: readonly Reading[]; readonly wrong: readonly Reading[] };

/** Finds them in the log of a string set. */
export function loggedOf({ retunes, readings, wrong }: Output<'log.read'>, course: number, string: number): Logged {
  const from = retunes.at(-1)?.startedAt ?? 0;
  const here = (rows: readonly Reading[]): readonly Reading[] =>
    rows.filter((row) => row.course === course && row.string === string && row.at >= from);
  return { counting: here(readings), wrong: here(wrong) };
}

/** Of a normal distribution, 90 % lie within so many standard deviations. */
const sigmasOfBand = 1.645;

const bandOf = (cents: number, sigmaCents: number): Event['cents'] => ({
  cents,
  low: cents - sigmasOfBand * sigmaCents,
  high: cents + sigmasOfBand * sigmaCents,
});

/** Everything that the log and the forecast say of a string in this retune, oldest first; what is marked as wrong among it. */
export function eventsOf({ history, assessment }: StringRow, now: number, { counting, wrong }: Logged): readonly Event[] {
  const turns = history.moves.map(({ atSeconds, cents }): Event => ({
    seconds: atSeconds,
    what: `peg turned, ${cents < 0 ? 'loosened' : 'tightened'} by ${figure(Math.abs(cents), Math.abs(cents) < 10 ? 1 : 0)} c`,
    cents: null,
    marks: null,
  }));
  const slips = assessment.slips.map(({ atSeconds, cents }): Event => ({
    seconds: atSeconds,
    what: `slipped ${cents < 0 ? 'down' : 'up'} ${figure(Math.abs(cents))} c before this`,
    cents: null,
    marks: null,
  }));
  const readings = history.readings.map(({ atSeconds, cents, sigmaCents }): Event => {
    const reading = counting.find((row) => row.at / 1000 === atSeconds);
    const marks = reading === undefined ? null : { reading, isWrong: false };
    return { seconds: atSeconds, what: 'heard', cents: bandOf(cents, sigmaCents), marks };
  });
  const mistaken = wrong.map((reading): Event => ({
    seconds: reading.at / 1000,
    what: 'heard, marked as wrong',
    cents: bandOf(reading.deviationCents, reading.sigmaCents),
    marks: { reading, isWrong: true },
  }));
  const expected = [
    { seconds: now, what: 'expected now', cents: assessment.forecast(now), marks: null },
    { seconds: now + horizonSeconds, what: 'expected in half an hour', cents: assessment.forecast(now + horizonSeconds), marks: null },
  ];
  return [...turns, ...slips, ...readings, ...mistaken].sort((a, b) => a.seconds - b.seconds).concat(expected);
}

/** A length of time as short as it can be said: `40 s`, `12 min`, `3 h`, `9 days`. */
export function duration(seconds: number): string {
  if (seconds < 100) return `${Math.round(seconds)} s`;
  if (seconds < 100 * 60) return `${Math.round(seconds / 60)} min`;
  if (seconds < 48 * 3600) return `${Math.round(seconds / 3600)} h`;
  return `${Math.round(seconds / 86_400)} days`;
}
