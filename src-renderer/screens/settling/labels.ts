import { type Axis, shareAlong } from '../../charts/axis.ts';
import type { CoursePicture } from '../../charts/picture.ts';

/** A word on the board: where its near edge stands, as a share of the board's width, and to which side of that it is written. */
export type Label = { readonly key: string; readonly words: string; readonly share: number; readonly side: 'after' | 'before' };

/** About the width of a 14 px letter, and the air round a label, in px. */
const letter = 7.2;
const air = 7;
/** Marks nearer than this, in px, are named together. */
const together = 36;

const widthOf = (words: string): number => words.length * letter + 2 * air;

/** `down 8` at every slip: after its mark where there is room before the next one, else before it. */
export function slipLabels(
  slips: readonly { readonly seconds: number; readonly cents: number }[],
  axis: Axis,
  boardWidth: number,
): readonly Label[] {
  const marks = slips.map(({ seconds, cents }) => ({
    at: shareAlong(axis, seconds) * boardWidth,
    words: `${cents < 0 ? 'down' : 'up'} ${Math.round(Math.abs(cents))}`,
  }));
  let written = 0;
  return marks.map(({ at, words }, index) => {
    const room = (marks[index + 1]?.at ?? boardWidth) - at;
    const side = room < widthOf(words) && at - written >= widthOf(words) ? 'before' : 'after';
    written = side === 'after' ? at + widthOf(words) : at;
    return { key: `${index} ${words}`, words, share: at / boardWidth, side };
  });
}

/** The times of a string's own peg moves, those close together in one label, after the last tick that it would touch. */
export function turnLabels(
  { axis, ownTurns, otherTurns }: CoursePicture,
  timeOf: (axisSeconds: number) => string,
  boardWidth: number,
): readonly Label[] {
  const along = (seconds: number): number => Math.max(0, shareAlong(axis, seconds)) * boardWidth;
  const groups: number[][] = [];
  for (const seconds of ownTurns) {
    const group = groups.at(-1);
    if (group !== undefined && along(seconds) - along(group.at(-1) ?? seconds) < together) group.push(seconds);
    else groups.push([seconds]);
  }
  const ticks = [...ownTurns, ...otherTurns].map(along).sort((a, b) => a - b);
  const labels = groups.map((group) => ({ words: joined(group.map(timeOf)), at: along(group.at(-1) ?? 0) }));
  if (ownTurns.length === 0 && otherTurns.length > 0) labels.push({ words: 'other pegs turned', at: along(Math.min(...otherTurns)) });
  return labels.map(({ words, at }, index) => {
    const clear = ticks.reduce((edge, tick) => (tick > edge && tick < edge + 2 * air ? tick : edge), at);
    const side = clear + widthOf(words) > boardWidth ? 'before' : 'after';
    return { key: `${index} ${words}`, words, share: (side === 'after' ? clear : at) / boardWidth, side };
  });
}

/** `20:05`, `20:05, 20:07`, or from the first to the last of more. */
function joined(times: readonly string[]): string {
  const different = [...new Set(times)];
  return different.length > 2 ? `${different[0]} to ${different.at(-1)}` : different.join(', ');
}

/** Cents are named at least so far apart and from the board's edge, in px. */
const leastLabelsApart = 15;
const fromEdge = 6;

/** The cents that are named beside a board: every ten, or every twenty where ten would be too close. */
export function centsLabels(
  { lowestCents, highestCents }: CoursePicture,
  boardHeight: number,
): readonly { readonly cents: number; readonly share: number }[] {
  const range = highestCents - lowestCents;
  const step = (10 / range) * boardHeight < leastLabelsApart ? 20 : 10;
  const margin = (fromEdge / boardHeight) * range;
  const first = Math.ceil((lowestCents + margin) / step);
  const last = Math.floor((highestCents - margin) / step);
  return Array.from({ length: last - first + 1 }, (_, index) => (first + index) * step).map((cents) => ({
    cents,
    share: (highestCents - cents) / range,
  }));
}
