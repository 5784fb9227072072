const clock = new Intl.DateTimeFormat('en-GB', { hour: '2-digit', minute: '2-digit' });
const day = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'long' });

/** The time of day of a moment in epoch milliseconds: `20:08`. */
export const clockTime = (at: number): string => clock.format(at);

/** When something was, as short as it can be said: `20:08` on the same day, else `16 November`. */
export const when = (at: number, now: number): string => (day.format(at) === day.format(now) ? clockTime(at) : day.format(at));
