import type { BeadKind } from './bead.ts';
import { BeadMark } from './bead-mark.tsx';
import { useSize } from './size.ts';
import { stringWidth } from './string-width.ts';
import styles from './small-board.module.css';

/** One string of a small board: its bead from 0 (nut) to 1 (saddle), or null where it was never heard. */
export type SmallString = { readonly gauge: number; readonly at: number | null; readonly kind: BeadKind; readonly isStill: boolean };

type Props = {
  readonly courses: readonly (readonly SmallString[])[];
  readonly height: number;
  /** Half the width of the slot in the middle, in px. */
  readonly slotHalf: number;
  /** In px between nut and saddle; as wide as there is room where it is left out. */
  readonly width?: number;
  /** How much room there is, in px, where a list has measured it once for all its rows. */
  readonly room?: number;
  /** Free board above the first and below the last string, in px. */
  readonly inset?: number;
  readonly isLit?: boolean;
};

const tallestBead = 13;
/** Between the strings of one course, in px. */
const apart = 5;

/** A whole instrument at a glance: every string between nut and saddle, the aim as a slot in the middle, a bead where each string is. */
export function SmallBoard({ courses, height, slotHalf, width: fixed, room, inset = 0, isLit = false }: Props) {
  const [board, { width: measured }] = useSize<SVGSVGElement>();
  const width = fixed ?? room ?? measured;
  const spacing = (height - 2 * inset) / Math.max(1, courses.length);
  const beadHeight = Math.min(tallestBead, spacing * 0.94);
  const strings = courses.flatMap((course, place) =>
    course.map((string, index) => ({
      ...string,
      y: inset + (place + 0.5) * spacing + (index - (course.length - 1) / 2) * apart,
      height: course.length > 1 ? Math.min(beadHeight, 9) : beadHeight,
    })),
  );
  return (
    <svg
      ref={room === undefined ? board : null}
      className={`${styles['board']} ${fixed === undefined ? styles['wide'] : ''} ${isLit ? styles['lit'] : ''}`}
      {...(fixed === undefined ? {} : { width: fixed })}
      height={height}
      aria-hidden="true"
    >
      {strings.map(({ y, gauge, isStill }, index) => (
        <line
          key={index}
          className={isStill ? styles['still'] : styles['string']}
          strokeWidth={stringWidth(gauge) * 0.8}
          x1={0}
          x2={width}
          y1={y}
          y2={y}
        />
      ))}
      <rect className={styles['slot']} x={width / 2 - slotHalf} y={0} width={2 * slotHalf} height={height} />
      <rect className={styles['wall']} x={width / 2 - slotHalf} y={0} width={1} height={height} />
      <rect className={styles['wall']} x={width / 2 + slotHalf - 1} y={0} width={1} height={height} />
      {width === 0
        ? null
        : strings.map(({ y, at, kind, height: tall }, index) =>
            at === null ? null : <BeadMark key={index} x={at * width} y={y} height={tall} kind={kind} />,
          )}
    </svg>
  );
}
