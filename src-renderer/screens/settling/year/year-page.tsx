import { useEffect, useState } from 'react';
import type { Output, Overview, Settings } from '#shared/contract/index.ts';
import { lessonsOf } from '../../../stores/lessons.ts';
import { useRemarks } from '../../../stores/remarks.ts';
import { takeBackLast, useUndo } from '../../../stores/undo.ts';
import { useYear } from '../../../stores/year.ts';
import { Button } from '../../../ui/button.tsx';
import { useUndoKey } from '../../../ui/keys.ts';
import { UndoLine } from '../../../ui/undo-line.tsx';
import { asSeen } from '../../stack.ts';
import styles from '../settling-page.module.css';
import { Notes } from './notes.tsx';
import { type SettleTime, settleTimes } from './settle-times.ts';
import { YearBoard } from './year-board.tsx';
import { yearRows } from './year-rows.ts';
import { setWords } from './year-words.ts';
import { YearTable } from './year-table.tsx';

type Props = {
  readonly overview: Overview;
  readonly settings: Settings;
  readonly log: Output<'log.read'>;
  readonly now: number;
  readonly onLeave: () => void;
};

/** A year of an instrument: how every string behaved, what it taught, when it was changed, and what the player wrote down. */
export function YearPage({ overview, settings, log, now, onLeave }: Props) {
  const { toleranceCents } = settings;
  const { instrument, stringSet } = overview;
  const minute = Math.floor(now / 60_000) * 60_000;
  const year = useYear(overview, minute);
  const { data: remarks } = useRemarks(overview);
  const times = useSettleTimes(overview, log, toleranceCents, now);
  const undo = useUndo();
  const [isTable, setTable] = useState(false);
  useUndoKey(() => void takeBackLast());
  if (year === undefined || remarks === undefined) return null;
  // What was noted a moment ago has happened, though the clock of the page moves in steps.
  const latest = Math.max(now, ...remarks.changes.map(({ at }) => at));
  const rows = asSeen(yearRows({ overview, year, changes: remarks.changes, now: latest }), instrument);
  return (
    <div className={styles['page']}>
      <h1>A year of {instrument.name}</h1>
      <p className="lead quiet">{setWords(stringSet, rows)}</p>
      {isTable ? (
        <YearTable rows={rows} name={instrument.name} now={now} />
      ) : (
        <YearBoard rows={rows} year={year} notes={remarks.notes} times={times} toleranceCents={toleranceCents} now={now} />
      )}
      <Notes overview={overview} notes={remarks.notes} now={now} />
      <div className={styles['bottom']}>
        <Button onPress={onLeave}>Back to tonight</Button>
        <Button look="plain" onPress={() => setTable(!isTable)}>
          {isTable ? 'Charts' : 'Table'}
        </Button>
        <UndoLine last={undo.last} problem={undo.problem} onUndo={() => void takeBackLast()} />
      </div>
    </div>
  );
}

/** What the log taught of settle times; it takes a while, so the page is shown first. */
function useSettleTimes(overview: Overview, log: Output<'log.read'>, toleranceCents: number, now: number): readonly SettleTime[] | null {
  const [times, setTimes] = useState<readonly SettleTime[] | null>(null);
  useEffect(() => {
    const timer = setTimeout(() => setTimes(settleTimes(overview, lessonsOf(overview, log, now), toleranceCents)));
    return () => clearTimeout(timer);
    // A lesson is of a log, not of a moment.
    // oxlint-disable-next-line react-hooks/exhaustive-deps
  }, [overview, log, toleranceCents]);
  return times;
}
