const clock = new Intl.DateTimeFormat('en-GB', { hour: '2-digit', minute: '2-digit' });
const day = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'long' });

/** The time of day of a moment in epoch milliseconds: `20:08`. */
export const clockTime = (at: number): string => clock.format(at);

/** An evening goes on past midnight: so many hours before and after, the time of day tells more than the day. */
const eveningMilliseconds = 8 * 3_600_000;

/** When something was or will be, as short as it can be said: `20:08` on the same day or in the same night, else `16 November`. */
export const when = (at: number, now: number): string =>
  day.format(at) === day.format(now) || Math.abs(at - now) < eveningMilliseconds ? clockTime(at) : day.format(at);
