import type { Output } from '#shared/contract/index.ts';
import { useMarkReading } from '../../stores/remarks.ts';
import { Button } from '../../ui/button.tsx';
import { courseText, figure } from '../../ui/words.ts';
import { duration, eventsOf, loggedOf } from './events.ts';
import type { Row, StringRow } from './rows.ts';
import { at, verdictWords } from './words.ts';
import styles from './readings-table.module.css';

type Props = { readonly rows: readonly Row[]; readonly log: Output<'log.read'>; readonly now: number; readonly name: string };

/** Cents to one decimal, 0.0 without a sign. */
const tenths = (cents: number): string => figure(Math.round(cents * 10) / 10 || 0, 1);

/** Everything that the boards show, as a table. */
export const ReadingsTable = ({ rows, log, now, name }: Props) => (
  <div className={styles['space']}>
    <table className={styles['table']}>
      <caption className="unseen">Peg moves, readings, slips and forecasts of {name} since its last retune, course by course</caption>
      <thead>
        <tr className="small">
          <th scope="col">Course</th>
          <th scope="col">When</th>
          <th scope="col">Since its peg move</th>
          <th scope="col">What</th>
          <th scope="col" className={styles['figure']}>
            Cents from wanted
          </th>
          <th scope="col" className={styles['figure']}>
            90 % band
          </th>
          <th scope="col">
            <span className="unseen">Mark</span>
          </th>
        </tr>
      </thead>
      {rows.flatMap((row) =>
        row.strings.map((string) => <StringGroup key={`${row.course}.${string.string}`} row={row} string={string} log={log} now={now} />),
      )}
    </table>
  </div>
);

type GroupProps = Pick<Props, 'log' | 'now'> & { readonly row: Row; readonly string: StringRow };

function StringGroup({ row, string, log, now }: GroupProps) {
  const mark = useMarkReading();
  const events = eventsOf(string, now, loggedOf(log, row.course, string.string));
  return (
    <tbody>
      {events.map(({ seconds, what, cents, marks }, index) => (
        <tr key={`${seconds} ${what}`} data-wrong={marks?.isWrong === true}>
          {index === 0 ? (
            <th scope="rowgroup" rowSpan={events.length}>
              <span className="quiet">{row.number}</span> {courseText(row.pitches.slice(string.string, string.string + 1))}
              <br />
              {verdictWords[string.assessment.verdict]}
            </th>
          ) : null}
          <td>{at(seconds, now)}</td>
          <td>{string.movedAt === null || seconds < string.movedAt ? '' : duration(seconds - string.movedAt)}</td>
          <td>{what}</td>
          <td className={styles['figure']}>{cents === null ? '' : tenths(cents.cents)}</td>
          <td className={styles['figure']}>{cents === null ? '' : `${tenths(cents.low)} to ${tenths(cents.high)}`}</td>
          <td>
            {marks === null ? null : (
              <Button look="plain" onPress={() => mark(marks.reading, !marks.isWrong)}>
                {marks.isWrong ? 'Take back in' : 'Mark as wrong'}
              </Button>
            )}
          </td>
        </tr>
      ))}
    </tbody>
  );
}
