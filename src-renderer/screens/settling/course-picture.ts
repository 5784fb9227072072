import { type Axis, momentAt, shareAlong } from '../../charts/axis.ts';
import type { CoursePicture, CurvePoint, DrawnString } from '../../charts/picture.ts';
import { horizonSeconds } from '../../stores/settling.ts';
import { stringWidth } from '../../ui/string-width.ts';
import type { TickedAxis } from './axes.ts';
import { isForeseen, type Row, type StringRow } from './rows.ts';

/** Cents that every board shows at least, to either side. */
const leastCents = 14;
const mostCents = 42;
/** Air beyond the farthest reading; below there is room for the ticks of the pegs as well. */
const roomCents = { above: 4, below: 9 };
const pointsOfCurve = 30;
/** A curve stops so far before a slip, as a share of the board. */
const breakShare = 0.008;
/** A hollow mark nearer to now than this share of the board could not be told from it. */
const leastAheadShare = 0.04;
/** A string without a known gauge is drawn like this one, in millimetres (assumed). */
const usualGauge = 0.7;

type Facts = { readonly now: number; readonly toleranceCents: number };

/** Everything that is drawn on a course's board, on an axis of clock time or (`log`) of time since each string's own peg move. */
export function coursePicture(row: Row, { axis, ticks }: TickedAxis, { now, toleranceCents }: Facts): CoursePicture {
  const [leading] = row.strings;
  const start = startOf(leading, axis);
  const strings = row.strings.map((string) => drawnString(string, axis, now));
  const ahead = { seconds: now + horizonSeconds - start, cents: leading.assessment.forecast(now + horizonSeconds).cents };
  const isApart = shareAlong(axis, ahead.seconds) - shareAlong(axis, now - start) >= leastAheadShare;
  const onAxis = (moments: readonly number[]): readonly number[] =>
    moments.map((seconds) => seconds - start).filter((seconds) => seconds >= 0 && seconds >= axis.from * (axis.kind === 'log' ? 0 : 1));
  const cents = strings.flatMap(({ readings, curve }) => [...readings, ...curve.flat()].map((point) => point.cents));
  return {
    axis,
    lowestCents: -boundOf(
      cents.map((value) => -value),
      roomCents.below,
    ),
    highestCents: boundOf(cents, roomCents.above),
    toleranceCents,
    stringWidth: stringWidth(row.gaugeMillimetres ?? usualGauge),
    strings,
    frets: ticks.slice(1).map(({ seconds }) => seconds),
    ownTurns: onAxis(leading.history.moves.map(({ atSeconds }) => atSeconds)),
    otherTurns: onAxis(row.otherTurns),
    slips: onAxis(leading.assessment.slips.map(({ atSeconds }) => atSeconds)),
    now: now - start,
    ahead: isApart && isForeseen(leading.assessment, now) ? ahead : null,
  };
}

/** The moment that an axis counts a string's seconds from. */
export const startOf = ({ since }: StringRow, axis: Axis): number => (axis.kind === 'log' ? since : 0);

/** How far a board reaches to one side. */
const boundOf = (cents: readonly number[], room: number): number =>
  Math.min(mostCents, Math.max(leastCents, ...cents.map((value) => value + room)));

function drawnString(string: StringRow, axis: Axis, now: number): DrawnString {
  const { assessment, heard, since } = string;
  const start = startOf(string, axis);
  const isHeard = assessment.verdict !== 'unheard';
  const from = Math.max(axis.from, (isHeard ? (heard[0]?.atSeconds ?? since) : since) - start);
  const first = shareAlong(axis, from);
  const even = Array.from({ length: pointsOfCurve + 1 }, (_, index) => momentAt(axis, first + ((1 - first) * index) / pointsOfCurve));
  const moments = [...even, now - start].sort((a, b) => a - b);
  const gap = (seconds: number): number => momentAt(axis, shareAlong(axis, seconds) - breakShare);
  const at = (seconds: number): CurvePoint => ({ seconds, ...assessment.forecast(seconds + start) });
  const slips = assessment.slips.map(({ atSeconds }) => atSeconds - start).filter((seconds) => seconds > from);
  const pieces = [from, ...slips].map((begin, index, begins) => {
    const end = begins[index + 1] ?? Number.POSITIVE_INFINITY;
    const last = Number.isFinite(end) ? gap(end) : end;
    const between = moments.filter((seconds) => seconds > begin && seconds < last);
    return [begin, ...between, ...(Number.isFinite(last) && last > begin ? [last] : [])];
  });
  return {
    readings: heard.map(({ atSeconds, cents }) => ({ seconds: atSeconds - start, cents })),
    curve: isForeseen(assessment, now) ? pieces.map((piece) => piece.map(at)) : [],
    fittedUntil: isHeard ? now - start : null,
  };
}
