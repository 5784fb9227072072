import { horizonSeconds } from '../../stores/settling.ts';
import { figure } from '../../ui/words.ts';
import type { StringRow } from './rows.ts';

/** One line of the table: what happened to a string, or is expected of it. Seconds of the epoch; cents from wanted with the ends of the 90 % band, or null. */
export type Event = {
  readonly seconds: number;
  readonly what: string;
  readonly cents: { readonly cents: number; readonly low: number; readonly high: number } | null;
};

/** Of a normal distribution, 90 % lie within so many standard deviations. */
const sigmasOfBand = 1.645;

/** Everything that the log and the forecast say of a string in this retune, oldest first. */
export function eventsOf({ history, assessment }: StringRow, now: number): readonly Event[] {
  const turns = history.moves.map(({ atSeconds, cents }): Event => ({
    seconds: atSeconds,
    what: `peg turned, ${cents < 0 ? 'loosened' : 'tightened'} by ${figure(Math.abs(cents), Math.abs(cents) < 10 ? 1 : 0)} c`,
    cents: null,
  }));
  const slips = assessment.slips.map(({ atSeconds, cents }): Event => ({
    seconds: atSeconds,
    what: `slipped ${cents < 0 ? 'down' : 'up'} ${figure(Math.abs(cents))} c before this`,
    cents: null,
  }));
  const readings = history.readings.map(({ atSeconds, cents, sigmaCents }): Event => ({
    seconds: atSeconds,
    what: 'heard',
    cents: { cents, low: cents - sigmasOfBand * sigmaCents, high: cents + sigmasOfBand * sigmaCents },
  }));
  const expected = [
    { seconds: now, what: 'expected now', cents: assessment.forecast(now) },
    { seconds: now + horizonSeconds, what: 'expected in half an hour', cents: assessment.forecast(now + horizonSeconds) },
  ];
  return [...turns, ...slips, ...readings].sort((a, b) => a.seconds - b.seconds).concat(expected);
}

/** A length of time as short as it can be said: `40 s`, `12 min`, `3 h`, `9 days`. */
export function duration(seconds: number): string {
  if (seconds < 100) return `${Math.round(seconds)} s`;
  if (seconds < 100 * 60) return `${Math.round(seconds / 60)} min`;
  if (seconds < 48 * 3600) return `${Math.round(seconds / 3600)} h`;
  return `${Math.round(seconds / 86_400)} days`;
}
