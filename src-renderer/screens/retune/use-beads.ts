import { useEffect, useState } from 'react';
import { centsBetween, hertz } from '#shared/units/index.ts';
import { type Retuning, retuning } from '../../stores/retuning.ts';
import { beadKind, beadPath } from '../../ui/bead.ts';
import { alongString } from '../../ui/scale.ts';

/** A bead that is drawn: the path to set and the board that it lies on. */
export type DrawnBead = {
  readonly course: number;
  readonly string: number;
  readonly path: SVGPathElement;
  readonly board: { readonly width: number; readonly middle: number; readonly height: number };
};

/** The beads of the screen. Boards put theirs in and take them out. */
export type Beads = Set<DrawnBead>;

/** A bead is faint when its string was not heard for this long, in milliseconds. */
const faintAfter = 400;

/** Draws the live bead at most once a frame, straight into the picture: React is not asked. */
export function useBeads(retuneId: string | null): Beads {
  const [beads] = useState<Beads>(() => new Set());
  useEffect(() => {
    if (retuneId === null) return undefined;
    let request = 0;
    const paint = (): void => {
      const { now } = retuning.getState();
      if (now !== null) for (const bead of beads) paintBead(bead, now);
      request = requestAnimationFrame(paint);
    };
    request = requestAnimationFrame(paint);
    return () => cancelAnimationFrame(request);
  }, [beads, retuneId]);
  return beads;
}

function paintBead({ course, string, path, board }: DrawnBead, { live, coach }: Retuning): void {
  const state = coach.strings.find((one) => one.course === course && one.string === string);
  const isLive = live !== null && live.match.kind === 'match' && live.match.course === course && live.match.string === string;
  if (state === undefined || board.width === 0 || (!isLive && (state.sigmaCents === null || state.landedAtSeconds === null))) {
    if (path.hasAttribute('d')) path.removeAttribute('d');
    return;
  }
  const cents = centsBetween(hertz(isLive ? live.hertz : state.presentHertz), hertz(state.aimHertz));
  const sigmaCents = isLive ? live.sigmaCents : (state.sigmaCents ?? 0);
  const kind = beadKind(cents, sigmaCents, coach.setup.toleranceCents);
  path.setAttribute('d', beadPath({ cents, sigmaCents, kind, ...board }));
  path.setAttribute('transform', `translate(${inward(cents, board)} 0)`);
  path.dataset['kind'] = kind;
  path.dataset['faint'] = String(isLive && Date.now() - live.atMilliseconds > faintAfter);
}

/** How far a bead at the nut or the saddle is drawn inward, in px, so that it is seen whole. */
function inward(cents: number, { width, height }: DrawnBead['board']): number {
  const half = 0.45 * height;
  const at = alongString(cents) * width;
  return Math.max(0, half - at) - Math.max(0, at + half - width);
}
