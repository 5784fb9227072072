import { useLayoutEffect, useRef } from 'react';
import { useStore } from 'zustand';
import { centsBetween, hertz } from '#shared/units/index.ts';
import { type Retuning, retuning } from '../../stores/retuning.ts';
import { alongString } from '../../ui/scale.ts';
import { beadHeight, type BoardLook } from './board-look.ts';
import type { Beads } from './use-beads.ts';
import styles from './board.module.css';

type Props = {
  readonly course: number;
  readonly string: number;
  readonly look: BoardLook;
  readonly count: number;
  readonly width: number;
  readonly middle: number;
  readonly beads: Beads;
};

/** Where a string was last heard, in cents from its aim; null while it sounds, once it has landed, and of a new one. */
function lastHeard({ live, coach, renewed }: Retuning, course: number, string: number): number | null {
  if (live?.match.kind === 'match' && live.match.course === course && live.match.string === string) return null;
  const state = coach.strings.find((one) => one.course === course && one.string === string);
  if (state === undefined || state.landedAtSeconds !== null) return null;
  if (state.visit === null && renewed.some((one) => one.course === course && one.string === string)) return null;
  return centsBetween(hertz(state.presentHertz), hertz(state.aimHertz));
}

/** Radius of the mark of where a string was last heard, in px; beyond the board it stands at its end, whole. */
const dot = 5;

/** Where one string was last heard, and its live bead. */
export function StringMarks({ course, string, look, count, width, middle, beads }: Props) {
  const path = useRef<SVGPathElement>(null);
  const last = useStore(retuning, ({ now }) => (now === null ? null : lastHeard(now, course, string)));
  const height = beadHeight(look, count, width);
  useLayoutEffect(() => {
    const bead = path.current;
    if (bead === null) return undefined;
    return beads.add({ course, string, path: bead, board: { width, middle, height } });
  }, [beads, course, string, width, middle, height]);
  return (
    <>
      {last === null ? null : (
        <circle className={styles['last']} cx={Math.min(width - dot, Math.max(dot, alongString(last) * width))} cy={middle} r={dot} />
      )}
      <path ref={path} className={styles['bead']} />
    </>
  );
}
