import { shareAlong } from './axis.ts';
import type { BoardPicture } from './board-picture.ts';

/** A moment of the curve through a string's readings: where it is expected, and the ends of the band. */
export type CurvePoint = { readonly seconds: number; readonly cents: number; readonly low: number; readonly high: number };

/** One string of a course: what was heard, and the curve. The curve is broken where a slip parts it. */
export type DrawnString = {
  readonly readings: readonly { readonly seconds: number; readonly cents: number }[];
  readonly curve: readonly (readonly CurvePoint[])[];
  /** Up to here the curve is a fit, after it a forecast; null where nothing was heard that it could be fitted to. */
  readonly fittedUntil: number | null;
};

/** Everything that is drawn on one course's board. Seconds are those of the axis; cents are from wanted. */
export type CoursePicture = BoardPicture & {
  /** The leading string first: it alone has a band, slips and the hollow mark. */
  readonly strings: readonly DrawnString[];
  readonly ownTurns: readonly number[];
  readonly otherTurns: readonly number[];
  readonly slips: readonly number[];
  readonly now: number;
  readonly ahead: { readonly seconds: number; readonly cents: number } | null;
};

/** The columns of a string, in this order. */
export const columnsOfString = ['fit', 'forecast', 'low', 'high', 'within', 'below', 'above'] as const;

/** Where a moment lies that a log axis cannot show: left of the board. */
const offBoard = -1;

/** A value, a break of the line (null), or nothing at this moment (undefined). */
type Cell = number | null | undefined;

/** The picture's strings as columns over one rising row of moments: where those lie along the axis first, then `columnsOfString` for each string. */
export function columnsOf({ axis, strings, toleranceCents }: CoursePicture): readonly [readonly number[], ...(readonly Cell[])[]] {
  const breaks = strings.flatMap(({ curve }) => curve.slice(1).flatMap((piece, index) => breakBetween(curve[index], piece)));
  const all = strings.flatMap(({ curve, readings }) => [...curve.flat(), ...readings].map(({ seconds }) => seconds));
  const moments = [...new Set([...all, ...breaks])].sort((a, b) => a - b);
  return [
    moments.map((seconds) => Math.max(offBoard, shareAlong(axis, seconds))),
    ...strings.flatMap((string) => columnsOfOne(string, moments, toleranceCents)),
  ];
}

/** A moment between two pieces of a curve, where its line has a gap. */
function breakBetween(before: readonly CurvePoint[] | undefined, after: readonly CurvePoint[]): readonly number[] {
  const [end, start] = [before?.at(-1)?.seconds, after[0]?.seconds];
  return end === undefined || start === undefined ? [] : [(end + start) / 2];
}

function columnsOfOne(
  { curve, readings, fittedUntil }: DrawnString,
  moments: readonly number[],
  tolerance: number,
): readonly (readonly Cell[])[] {
  const points = new Map(curve.flat().map((point) => [point.seconds, point]));
  const heard = new Map(readings.map(({ seconds, cents }) => [seconds, cents]));
  const gaps = new Set(curve.slice(1).flatMap((piece, index) => breakBetween(curve[index], piece)));
  const until = fittedUntil ?? Number.NEGATIVE_INFINITY;
  const line = (value: (point: CurvePoint) => Cell): readonly Cell[] =>
    moments.map((seconds) => {
      const point = points.get(seconds);
      return point === undefined ? (gaps.has(seconds) ? null : undefined) : value(point);
    });
  const dots = (isHere: (cents: number) => boolean): readonly Cell[] =>
    moments.map((seconds) => {
      const cents = heard.get(seconds);
      return cents !== undefined && isHere(cents) ? cents : undefined;
    });
  return [
    line(({ seconds, cents }) => (seconds <= until ? cents : undefined)),
    line(({ seconds, cents }) => (seconds >= until ? cents : undefined)),
    line(({ low }) => low),
    line(({ high }) => high),
    dots((cents) => Math.abs(cents) <= tolerance),
    dots((cents) => cents < -tolerance),
    dots((cents) => cents > tolerance),
  ];
}
