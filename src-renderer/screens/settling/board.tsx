import { shareAlong } from '../../charts/axis.ts';
import { horizonSeconds } from '../../stores/settling.ts';
import { clockTime } from '../../ui/time.ts';
import type { TickedAxis } from './axes.ts';
import { coursePicture } from './course-picture.ts';
import { CourseRow } from './course-row.tsx';
import type { Row } from './rows.ts';
import styles from './board.module.css';

type Props = { readonly rows: readonly Row[]; readonly axis: TickedAxis; readonly now: number; readonly toleranceCents: number };

/** With more courses than this, each has less room. */
const mostRoomyRows = 4;

/** Every course on its own board, all of them over one time axis. */
export function Board({ rows, axis, now, toleranceCents }: Props) {
  const drawn = rows.map((row) => ({ row, picture: coursePicture(row, axis, { now, toleranceCents }) }));
  const isClock = axis.axis.kind === 'linear';
  const hasHollow = drawn.some(({ picture }) => picture.ahead !== null);
  return (
    <div className={styles['board']}>
      <p className={`small faint ${styles['unit']}`} aria-hidden="true">
        cents from wanted
      </p>
      <ul className={styles['rows']} data-dense={rows.length > mostRoomyRows}>
        {drawn.map(({ row, picture }, index) => (
          <CourseRow
            key={row.course}
            row={row}
            picture={picture}
            now={now}
            toleranceCents={toleranceCents}
            nowWords={index === 0 ? `now ${clockTime(now * 1000)}` : null}
          />
        ))}
      </ul>
      <div className={`small faint ${styles['foot']}`}>
        <p className={styles['scale']}>{isClock ? '' : 'since its peg was turned'}</p>
        <p className={styles['ticks']} aria-hidden="true">
          {axis.ticks.map(({ seconds, words }) => {
            const share = shareAlong(axis.axis, seconds);
            return (
              <span
                key={seconds}
                style={{ left: `${share * 100}%`, transform: `translateX(${share < 0.01 ? 0 : share > 0.99 ? -100 : -50}%)` }}
              >
                {words}
              </span>
            );
          })}
        </p>
        <p className={styles['hollow']}>{hasHollow ? `hollow: expected at ${clockTime((now + horizonSeconds) * 1000)}` : ''}</p>
      </div>
    </div>
  );
}
