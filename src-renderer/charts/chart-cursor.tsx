import { type PointerEvent, useState } from 'react';
import { type CursorPoint, nearestTo } from './cursor-points.ts';
import styles from './chart-cursor.module.css';

type Props = {
  /** What the board shows, for those who do not see it: `Course 2, reading by reading`. */
  readonly label: string;
  /** From the nut on. */
  readonly points: readonly CursorPoint[];
};

/** A point past this share of the board has its words on the side of the nut. */
const roomForWords = 0.5;

/**
 * Lies over a board and says what is under the pointer, or where the keys have gone: one point at a time, in words. For the keyboard and for screen
 * readers it is a slider along the points.
 */
export function ChartCursor({ label, points }: Props) {
  const [chosen, setChosen] = useState<number | null>(null);
  const [isFocused, setFocused] = useState(false);
  const last = points.length - 1;
  if (last < 0) return null;
  const at = Math.min(chosen ?? last, last);
  const point = points[at];
  const isShown = chosen !== null || isFocused;
  const follow = ({ currentTarget, clientX }: PointerEvent) => {
    const { left, width } = currentTarget.getBoundingClientRect();
    setChosen(nearestTo(points, (clientX - left) / width));
  };
  return (
    <div
      className={styles['cursor']}
      onPointerMove={follow}
      onPointerDown={follow}
      onPointerLeave={() => {
        if (!isFocused) setChosen(null);
      }}
    >
      <input
        type="range"
        className={styles['slider']}
        aria-label={label}
        aria-valuetext={point?.words}
        min={0}
        max={last}
        value={at}
        onChange={({ target }) => setChosen(target.valueAsNumber)}
        onFocus={() => setFocused(true)}
        onBlur={() => {
          setFocused(false);
          setChosen(null);
        }}
      />
      {!isShown || point === undefined ? null : (
        <div aria-hidden="true">
          <span className={styles['line']} style={{ left: `${point.along * 100}%` }} />
          <span className={styles['ring']} style={{ left: `${point.along * 100}%`, top: `${point.down * 100}%` }} />
          <span
            className={`small ${styles['words']}`}
            data-side={point.along > roomForWords ? 'before' : 'after'}
            style={{ left: `${point.along * 100}%` }}
          >
            {point.words}
          </span>
        </div>
      )}
    </div>
  );
}
