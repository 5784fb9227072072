import { shareAlong } from '../../../charts/axis.ts';
import { type BoardPicture, shareDown } from '../../../charts/board-picture.ts';
import type { CursorPoint } from '../../../charts/cursor-points.ts';
import { figure } from '../../../ui/words.ts';
import type { YearRow } from './year-rows.ts';
import { dayOf } from './year-words.ts';

const beside = (cents: number): string =>
  Math.abs(cents) < 0.5 ? 'on pitch' : `${figure(Math.abs(cents))}\u00A0c ${cents < 0 ? 'flat' : 'sharp'}`;

/** `15 November: 3 c flat, from −12 to 1 c`, or of a single reading `15 November: 3 c flat`. */
function dayWords({ at, last, lowest, highest, count }: YearRow['days'][number], now: number): string {
  const start = `${dayOf(at, now)}: ${beside(last)}`;
  return count === 1 || highest - lowest < 1 ? start : `${start}, from ${figure(lowest)} to ${figure(highest)}\u00A0c`;
}

/** What a cursor finds on a string's year: its days, and when it was changed. */
export function dayPoints({ days, changes }: Pick<YearRow, 'days' | 'changes'>, board: BoardPicture, now: number): readonly CursorPoint[] {
  const place = (at: number, cents: number) => ({ along: shareAlong(board.axis, at), down: shareDown(board, cents) });
  return [
    ...days.map((one) => ({ ...place(one.at, one.last), words: dayWords(one, now) })),
    ...changes.map(({ at }) => ({ ...place(at, 0), words: `${dayOf(at, now)}: new string` })),
  ].toSorted((a, b) => a.along - b.along);
}
