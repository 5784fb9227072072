import { useNavigate } from '@tanstack/react-router';
import { useState } from 'react';
import type { Overview } from '#shared/contract/index.ts';
import { Button } from '../../ui/button.tsx';
import { TwoWay } from '../../ui/two-way.tsx';
import { clockAxis, sinceAxis } from './axes.ts';
import { Board } from './board.tsx';
import { headline, nextCheck, nextStep } from './headline.ts';
import { ReadingsTable } from './readings-table.tsx';
import { asSeen } from '../stack.ts';
import { begunAt, type Row } from './rows.ts';
import styles from './settling-page.module.css';

type Props = { readonly overview: Overview; readonly rows: readonly Row[]; readonly now: number; readonly toleranceCents: number };

const timeScales = [
  { value: 'clock', words: 'Clock time' },
  { value: 'since', words: 'Time since the peg move' },
] as const;

/** The verdict on the whole instrument, every course on its board or in a table, and when to listen again. */
export function SettlingPage({ overview, rows, now, toleranceCents }: Props) {
  const navigate = useNavigate();
  const [timeScale, setTimeScale] = useState<(typeof timeScales)[number]['value']>('clock');
  const [isTable, setTable] = useState(false);
  const material = (row: Row) => overview.stringSet.courses[row.course]?.strings[row.strings[0].string]?.material ?? null;
  const { strong, rest } = nextStep(rows, { now, toleranceCents, material });
  const longest = Math.max(...rows.flatMap(({ strings }) => strings.map(({ since }) => now - since)));
  const axis = timeScale === 'clock' ? clockAxis(begunAt(rows), now) : sinceAxis(longest);
  const isUnheard = rows.some(({ verdict }) => verdict === 'unheard');
  return (
    <div className={styles['page']}>
      <div className={styles['title']}>
        <div>
          <h1>{headline(rows, now)}</h1>
          <p className="lead">
            <strong>{strong}</strong>
            {rest}
          </p>
        </div>
        {isUnheard ? (
          <Button look="solid" onPress={() => void navigate({ to: '/retune', search: { on: overview.instrument.id } })}>
            Listen in Retune
          </Button>
        ) : null}
      </div>
      {isTable ? (
        <ReadingsTable rows={rows} now={now} name={overview.instrument.name} />
      ) : (
        <Board rows={asSeen(rows, overview.instrument)} axis={axis} now={now} toleranceCents={toleranceCents} />
      )}
      <div className={styles['bottom']} data-sticks={isTable}>
        {isTable ? null : <TwoWay label="Time scale" options={timeScales} value={timeScale} onChange={setTimeScale} />}
        <Button look="plain" onPress={() => setTable(!isTable)}>
          {isTable ? 'Charts' : 'Table'}
        </Button>
        <p className={`small quiet ${styles['check']}`}>{nextCheck(rows, now)}</p>
      </div>
    </div>
  );
}
