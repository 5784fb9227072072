import type { StringChange } from '#shared/log/index.ts';
import { figure, pitchText } from '../../../ui/words.ts';
import styles from '../readings-table.module.css';
import { useTakeBackChange } from '../../../stores/remarks.ts';
import { Button } from '../../../ui/button.tsx';
import type { YearRow } from './year-rows.ts';
import { dayOf } from './year-words.ts';

type Props = { readonly rows: readonly YearRow[]; readonly name: string; readonly now: number };

const tenths = (cents: number): string => figure(Math.round(cents * 10) / 10 || 0, 1);

/** Everything that the boards of the year show, as a table. */
export const YearTable = ({ rows, name, now }: Props) => (
  <div className={styles['space']}>
    <table className={styles['table']}>
      <caption className="unseen">A year of {name}: every day on which a course was heard, in cents from what was wanted then</caption>
      <thead>
        <tr className="small">
          <th scope="col">Course</th>
          <th scope="col">Day</th>
          {['Readings', 'Lowest', 'Highest', 'Last'].map((words) => (
            <th key={words} scope="col" className={styles['figure']}>
              {words}
            </th>
          ))}
        </tr>
      </thead>
      {rows.map((row) => (
        <tbody key={`${row.course} ${row.string}`}>
          {eventsOf(row).map((event, index, all) => (
            <tr key={event.at}>
              {index === 0 ? (
                <th scope="rowgroup" rowSpan={all.length}>
                  <span className="quiet">{row.number}</span> {row.pitch === null ? '' : pitchText(row.pitch)}
                </th>
              ) : null}
              <td>{dayOf(event.at, now)}</td>
              {event.day === null ? (
                <td colSpan={4}>new string{event.noted === null ? null : <TakeBack noted={event.noted} />}</td>
              ) : (
                [figure(event.day.count), tenths(event.day.lowest), tenths(event.day.highest), tenths(event.day.last)].map(
                  (words, column) => (
                    <td key={column} className={styles['figure']}>
                      {words}
                    </td>
                  ),
                )
              )}
            </tr>
          ))}
        </tbody>
      ))}
    </table>
  </div>
);

/** A way back for a string change that was noted by mistake. */
function TakeBack({ noted }: { readonly noted: StringChange }) {
  const takeBack = useTakeBackChange();
  return (
    <Button look="plain" onPress={() => takeBack(noted)}>
      Take it back
    </Button>
  );
}

type Event = { readonly at: number; readonly day: YearRow['days'][number] | null; readonly noted: StringChange | null };

/** The days and the changes of one string, the latest first. */
const eventsOf = ({ days, changes }: YearRow): readonly Event[] =>
  [...days.map((day) => ({ at: day.at, day, noted: null })), ...changes.map((change) => ({ ...change, day: null }))].toSorted(
    (a, b) => b.at - a.at,
  );
