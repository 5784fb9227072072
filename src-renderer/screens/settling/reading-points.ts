import { shareAlong } from '../../charts/axis.ts';
import { shareDown } from '../../charts/board-picture.ts';
import type { CursorPoint } from '../../charts/cursor-points.ts';
import type { CoursePicture } from '../../charts/picture.ts';
import { figure, ordinal } from '../../ui/words.ts';
import { startOf } from './course-picture.ts';
import type { Row, StringRow } from './rows.ts';
import { at } from './words.ts';

const tenth = 10;
/** `3.2 c below`; within a tenth of a cent `on pitch`. */
const beside = (cents: number): string => {
  const rounded = Math.round(cents * tenth) / tenth;
  return rounded === 0 ? 'on pitch' : `${figure(Math.abs(rounded), 1)}\u00A0c ${cents < 0 ? 'below' : 'above'}`;
};

/** What a cursor finds on a course's board: everything that was heard of its strings there, and where the leading one is expected. `now` in seconds of the epoch. */
export function readingPoints(row: Row, picture: CoursePicture, now: number): readonly CursorPoint[] {
  const place = (seconds: number, cents: number) => ({ along: shareAlong(picture.axis, seconds), down: shareDown(picture, cents) });
  const nameOf = ({ string }: StringRow): string => (row.strings.length === 1 ? '' : `, ${ordinal(string)} string`);
  const heard = row.strings
    .flatMap((string, index) => {
      const start = startOf(string, picture.axis);
      return (picture.strings[index]?.readings ?? []).map(({ seconds, cents }) => ({
        ...place(seconds, cents),
        words: `${at(seconds + start, now)}${nameOf(string)}: ${beside(cents)}`,
      }));
    })
    .filter(({ along }) => along >= 0 && along <= 1)
    .toSorted((a, b) => a.along - b.along);
  const [leading] = row.strings;
  const { ahead } = picture;
  if (ahead === null) return heard;
  const then = ahead.seconds + startOf(leading, picture.axis);
  const { low, high } = leading.assessment.forecast(then);
  const words = `expected at ${at(then, now)}${nameOf(leading)}: ${beside(ahead.cents)}, from ${figure(low, 1)} to ${figure(high, 1)}\u00A0c`;
  return [...heard, { ...place(ahead.seconds, ahead.cents), words }];
}
