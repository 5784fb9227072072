import { ChartCursor } from '../../charts/chart-cursor.tsx';
import { CourseChart } from '../../charts/course-chart.tsx';
import type { CoursePicture } from '../../charts/picture.ts';
import { courseText } from '../../ui/words.ts';
import { CourseLabels } from './course-labels.tsx';
import { startOf } from './course-picture.ts';
import { readingPoints } from './reading-points.ts';
import type { Row } from './rows.ts';
import { summaryOf } from './summary.ts';
import { meaningOf, shortReason, verdictWords } from './words.ts';
import styles from './course-row.module.css';

type Props = {
  readonly row: Row;
  readonly picture: CoursePicture;
  readonly now: number;
  readonly toleranceCents: number;
  /** Written over the line for now, above the first board; null on the others. */
  readonly nowWords: string | null;
};

/** One course: what it is and its verdict on the headstock, its readings on the board, what that means on the body. */
export function CourseRow({ row, picture, now, toleranceCents, nowWords }: Props) {
  const [leading] = row.strings;
  const { plain, strong } = meaningOf(row, { now, toleranceCents });
  return (
    <li className={styles['row']}>
      <div className={styles['head']}>
        <span className={`pitch ${styles['number']}`}>{row.number}</span>
        <div>
          <h2>
            <span className="pitch">{courseText(row.pitches)}</span>{' '}
            <span className={`verdict ${styles['verdict']}`}>{verdictWords[row.verdict]}</span>
          </h2>
          <p className="small quiet">{shortReason(row, now)}</p>
        </div>
      </div>
      <figure className={styles['board']}>
        <CourseChart picture={picture} />
        <CourseLabels picture={picture} slips={leading.assessment.slips} start={startOf(leading, picture.axis)} nowWords={nowWords} />
        <ChartCursor label={`Course ${row.number}, reading by reading`} points={readingPoints(row, picture, now)} />
        <figcaption className="unseen">{summaryOf(row, now)}</figcaption>
      </figure>
      <p className={styles['tail']}>
        {plain}
        {strong === null ? null : <strong> {strong}</strong>}
      </p>
    </li>
  );
}
