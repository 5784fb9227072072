import { useEffect, useState } from 'react';
import { centsBetween, hertz } from '#shared/units/index.ts';
import { type Retuning, retuning } from '../../stores/retuning.ts';
import { type BeadKind, beadKind, beadPath } from '../../ui/bead.ts';
import { alongString } from '../../ui/scale.ts';

/** A bead that is drawn: the path to set and the board that it lies on. */
export type DrawnBead = {
  readonly course: number;
  readonly string: number;
  readonly path: SVGPathElement;
  readonly board: { readonly width: number; readonly middle: number; readonly height: number };
};

/** The beads of the screen. */
export type Beads = {
  /** Takes a board's bead in; what it returns takes it out again. */
  readonly add: (bead: DrawnBead) => () => void;
  /** Draws whenever something was heard, until what it returns is called. */
  readonly follow: () => () => void;
};

/** A bead is faint when its string was not heard for this long, in milliseconds. */
const faintAfter = 400;

/** Draws the live beads straight into the picture, at most once a frame: React is not asked. */
export function useBeads(retuneId: string | null): Beads {
  const [beads] = useState(createBeads);
  useEffect(() => (retuneId === null ? undefined : beads.follow()), [beads, retuneId]);
  return beads;
}

function createBeads(): Beads {
  const drawings = new Map<DrawnBead, Drawing | undefined>();
  let request: number | null = null;
  const paint = (): void => {
    request = null;
    const { now } = retuning.getState();
    if (now !== null) for (const [bead, before] of drawings) drawings.set(bead, paintBead(bead, drawingOf(bead, now), before));
  };
  const paintSoon = (): void => {
    request ??= requestAnimationFrame(paint);
  };
  return {
    add: (bead) => {
      drawings.set(bead, undefined);
      paintSoon();
      return () => void drawings.delete(bead);
    },
    follow: () => {
      let fading: ReturnType<typeof setTimeout>;
      const off = retuning.subscribe(() => {
        paintSoon();
        clearTimeout(fading);
        fading = setTimeout(paintSoon, faintAfter);
      });
      paintSoon();
      return () => {
        off();
        clearTimeout(fading);
      };
    },
  };
}

/** What is to be seen of a bead; null where nothing is. */
type Drawing = { readonly outline: string; readonly inward: number; readonly kind: BeadKind; readonly isFaint: boolean } | null;

function drawingOf({ course, string, board }: DrawnBead, { live, coach }: Retuning): Drawing {
  const state = coach.strings.find((one) => one.course === course && one.string === string);
  const isLive = live !== null && live.match.kind === 'match' && live.match.course === course && live.match.string === string;
  if (state === undefined || board.width === 0) return null;
  // What a strum told is shown where nothing was plucked since.
  const isStrummed =
    coach.strummed?.verdicts?.some((one) => one.course === course && one.string === string && one.kind === 'turn') ?? false;
  const isKnown = state.landedAtSeconds !== null || (isStrummed && state.visit === null);
  if (!isLive && !isKnown) return null;
  const cents = centsBetween(hertz(isLive ? live.hertz : state.presentHertz), hertz(state.aimHertz));
  const sigmaCents = isLive ? live.sigmaCents : isStrummed ? state.standing.sigmaCents : (state.sigmaCents ?? state.standing.sigmaCents);
  const kind = beadKind(cents, sigmaCents, coach.setup.toleranceCents);
  return {
    outline: beadPath({ cents, sigmaCents, kind, ...board }),
    inward: inward(cents, board),
    kind,
    isFaint: isLive && Date.now() - live.atMilliseconds >= faintAfter,
  };
}

/** Puts a drawing into the picture where it differs from the one before: what is not touched need not be painted anew. */
function paintBead({ path }: DrawnBead, drawing: Drawing, before: Drawing | undefined): Drawing {
  if (drawing === null) {
    if (before !== null) path.removeAttribute('d');
    return null;
  }
  if (drawing.outline !== before?.outline) {
    path.setAttribute('d', drawing.outline);
    path.setAttribute('transform', `translate(${drawing.inward} 0)`);
  }
  if (drawing.kind !== before?.kind) path.dataset['kind'] = drawing.kind;
  if (drawing.isFaint !== before?.isFaint) path.dataset['faint'] = String(drawing.isFaint);
  return drawing;
}

/** How far a bead at the nut or the saddle is drawn inward, in px, so that it is seen whole. */
function inward(cents: number, { width, height }: DrawnBead['board']): number {
  const half = 0.45 * height;
  const at = alongString(cents) * width;
  return Math.max(0, half - at) - Math.max(0, at + half - width);
}
