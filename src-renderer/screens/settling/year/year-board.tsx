import { shareAlong } from '../../../charts/axis.ts';
import { shareDown } from '../../../charts/board-picture.ts';
import { ChartCursor } from '../../../charts/chart-cursor.tsx';
import { YearChart } from '../../../charts/year-chart.tsx';
import type { Note } from '#shared/log/index.ts';
import type { Year } from '../../../stores/year.ts';
import { stringWidth } from '../../../ui/string-width.ts';
import { figure, pitchText } from '../../../ui/words.ts';
import boardStyles from '../board.module.css';
import labelStyles from '../course-labels.module.css';
import rowStyles from '../course-row.module.css';
import type { SettleTime } from './settle-times.ts';
import { boundOf, monthsOf, type YearRow } from './year-rows.ts';
import { dayPoints } from './day-points.ts';
import { ageWords, assumedWords, farthestWords, settleWords } from './year-words.ts';
import styles from './year-board.module.css';

type Props = {
  readonly rows: readonly YearRow[];
  readonly year: Year;
  readonly notes: readonly Note[];
  readonly times: readonly SettleTime[] | null;
  readonly toleranceCents: number;
  readonly now: number;
};

/** A string without a known gauge is drawn like this one, in millimetres (assumed). */
const usualGauge = 0.7;
/** With more courses than this, each has less room. */
const mostRoomyRows = 4;
/** On boards that reach farther than this, in cents, 20 is named, else 10. */
const wideCents = 24;
/** Air after today, so that its dots are whole. */
const airMilliseconds = 4 * 86_400_000;
/** Names of months nearer to the saddle than this share of the board have no room. */
const roomForMonth = 0.96;

/** Every string's year on its own board, all of them over the same twelve months; the numbers above are those of the notes. */
export function YearBoard({ rows, year, notes, times, toleranceCents, now }: Props) {
  const axis = { kind: 'linear', from: year.from, until: year.until + airMilliseconds } as const;
  const months = monthsOf(year);
  const boundCents = boundOf(rows);
  const named = boundCents > wideCents ? 20 : 10;
  return (
    <div className={boardStyles['board']}>
      <div className={`small faint ${styles['strip']}`} aria-hidden="true">
        <p>cents from wanted</p>
        <p className={styles['notes']}>
          {notes.map(({ id, at }, index) =>
            at < year.from ? null : (
              <span key={id} className={styles['note']} style={{ left: `${shareAlong(axis, at) * 100}%` }}>
                {index + 1}
              </span>
            ),
          )}
        </p>
        <p>to settle, after a tone down</p>
      </div>
      <ul className={boardStyles['rows']} data-dense={rows.length > mostRoomyRows}>
        {rows.map((row) => {
          const time = times?.find(({ course, string }) => course === row.course && string === row.string);
          const picture = {
            axis,
            lowestCents: -boundCents,
            highestCents: boundCents,
            toleranceCents,
            stringWidth: stringWidth(row.gaugeMillimetres ?? usualGauge),
            frets: months.map(({ at }) => at),
            changes: row.changes.map(({ at }) => at),
            days: row.days,
          };
          return (
            <li key={`${row.course} ${row.string}`} className={rowStyles['row']}>
              <div className={rowStyles['head']}>
                <span className={`pitch ${rowStyles['number']}`}>{row.number}</span>
                <div>
                  <h2>
                    <span className="pitch">{row.pitch === null ? '' : pitchText(row.pitch)}</span>
                  </h2>
                  <p className="small quiet">{ageWords(row.ageDays)}</p>
                </div>
              </div>
              <figure className={rowStyles['board']}>
                <YearChart picture={picture} />
                <div className={`small ${labelStyles['labels']}`} aria-hidden="true">
                  {[named, 0, -named].map((cents) => (
                    <span
                      key={cents}
                      className={`${labelStyles['cents']} ${styles['cents']}`}
                      data-zero={cents === 0}
                      style={{ top: `${shareDown(picture, cents) * 100}%` }}
                    >
                      {cents > 0 ? '+' : ''}
                      {figure(cents)}
                    </span>
                  ))}
                </div>
                <ChartCursor label={`Course ${row.number}, day by day`} points={dayPoints(row, picture, now)} />
                <figcaption className="unseen">
                  Course {row.number} through the year, day by day: how far from wanted it was heard. {farthestWords(row, now)}. The table
                  has every day.
                </figcaption>
              </figure>
              <div className={styles['tail']}>
                {time === undefined ? null : (
                  <>
                    <p>{settleWords(time.learned)}</p>
                    <p className="small quiet">{assumedWords(time)}</p>
                  </>
                )}
                <p className="small quiet">{farthestWords(row, now)}</p>
              </div>
            </li>
          );
        })}
      </ul>
      <div className={`small faint ${boardStyles['foot']} ${styles['foot']}`}>
        <p className={boardStyles['scale']} />
        <p className={boardStyles['ticks']} aria-hidden="true">
          {months.map(({ at, words }) => {
            const share = shareAlong(axis, at);
            return share > roomForMonth ? null : (
              <span key={at} style={{ left: `${share * 100}%` }}>
                {words}
              </span>
            );
          })}
        </p>
        <p className={boardStyles['hollow']}>
          bar: a day’s readings; dot: the last{rows.some(({ changes }) => changes.length > 0) ? '; upright: new string' : ''}
        </p>
      </div>
    </div>
  );
}
