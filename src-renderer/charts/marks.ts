import type { Colours } from './colours.ts';
import type { CoursePicture } from './picture.ts';

/** A canvas in device px, and where seconds and cents lie on it. */
export type Surface = {
  readonly context: CanvasRenderingContext2D;
  /** Device px per CSS px. */
  readonly ratio: number;
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  readonly x: (seconds: number) => number;
  readonly y: (cents: number) => number;
};

const ownTurn = { width: 3, height: 28 };
const otherTurn = { width: 1, height: 16 };
/** Ticks of other pegs nearer than this, in px, are drawn as one. */
const leastApart = 4;
const hollowRadius = 7;
const edgeMark = 8;

/** Paints what lies under the curves: the tolerance, the frets and the string at zero. */
export function paintBoard({ context, ratio, left, top, width, height, x, y }: Surface, picture: CoursePicture, colours: Colours): void {
  context.fillStyle = colours.slot;
  context.fillRect(left, y(picture.toleranceCents), width, y(-picture.toleranceCents) - y(picture.toleranceCents));
  context.fillStyle = colours.fret;
  for (const seconds of picture.frets) context.fillRect(Math.round(x(seconds)), top, ratio, height);
  context.fillStyle = colours.string;
  const thick = picture.stringWidth * ratio;
  context.fillRect(left, y(0) - thick / 2, width, thick);
}

/** Paints what lies over the curves: turns of pegs, slips, now, what was heard off the board, and where the string is expected. */
export function paintMarks(surface: Surface, picture: CoursePicture, colours: Colours): void {
  const { context, ratio, left, top, width, height, x, y } = surface;
  const tick = (seconds: number, { width: wide, height: tall }: typeof ownTurn): void => {
    const middle = Math.max(left + (wide * ratio) / 2, x(seconds));
    context.fillRect(middle - (wide * ratio) / 2, top + height - tall * ratio, wide * ratio, tall * ratio);
  };
  const upright = (seconds: number, dash: readonly number[]): void => {
    context.setLineDash(dash.map((length) => length * ratio));
    context.beginPath();
    context.moveTo(Math.round(x(seconds)) + ratio / 2, top);
    context.lineTo(Math.round(x(seconds)) + ratio / 2, top + height);
    context.stroke();
    context.setLineDash([]);
  };
  context.save();
  context.beginPath();
  context.rect(left, top, width, height);
  context.clip();
  context.fillStyle = colours['string-still'];
  let drawnAt = Number.NEGATIVE_INFINITY;
  for (const seconds of picture.otherTurns.toSorted((a, b) => a - b)) {
    if (x(seconds) - drawnAt < leastApart * ratio) continue;
    drawnAt = x(seconds);
    tick(seconds, otherTurn);
  }
  context.fillStyle = colours.nut;
  for (const seconds of picture.ownTurns) tick(seconds, ownTurn);
  context.lineWidth = 1.5 * ratio;
  context.strokeStyle = colours['ink-2'];
  for (const seconds of picture.slips) upright(seconds, [5, 4]);
  context.lineWidth = ratio;
  context.strokeStyle = colours['ink-3'];
  upright(picture.now, []);
  paintOffBoard(surface, picture, colours);
  if (picture.ahead !== null) {
    context.lineWidth = 3 * ratio;
    context.strokeStyle = colours.on;
    context.fillStyle = colours.board;
    context.beginPath();
    context.arc(x(picture.ahead.seconds), y(picture.ahead.cents), hollowRadius * ratio, 0, 2 * Math.PI);
    context.fill();
    context.stroke();
  }
  context.restore();
}

/** A reading beyond the board's cents points out over its edge. */
function paintOffBoard(
  { context, ratio, top, height, x }: Surface,
  { strings, lowestCents, highestCents }: CoursePicture,
  colours: Colours,
): void {
  for (const { seconds, cents } of strings.flatMap(({ readings }) => readings)) {
    if (cents >= lowestCents && cents <= highestCents) continue;
    const isBelow = cents < lowestCents;
    const tip = isBelow ? top + height : top;
    const base = tip + (isBelow ? -1 : 1) * edgeMark * ratio;
    context.fillStyle = isBelow ? colours['bead-below'] : colours['bead-above'];
    context.beginPath();
    context.moveTo(x(seconds), tip);
    context.lineTo(x(seconds) - (edgeMark / 2) * ratio, base);
    context.lineTo(x(seconds) + (edgeMark / 2) * ratio, base);
    context.fill();
  }
}
