import { useState } from 'react';
import { useStore } from 'zustand';
import type { Output, Overview } from '#shared/contract/index.ts';
import { beginCheck, checking } from '../../stores/checking.ts';
import { useHost } from '../../stores/host.tsx';
import { useLibrary } from '../../stores/library.ts';
import { usePlannedCheck } from '../../stores/reminder.ts';
import { useAcknowledge, useRemarks } from '../../stores/remarks.ts';
import { useStanding } from '../../stores/settling.ts';
import { soundFor } from '../../stores/sound-choice.ts';
import { takeBackLast, useUndo } from '../../stores/undo.ts';
import { Button } from '../../ui/button.tsx';
import { useKeys, useUndoKey } from '../../ui/keys.ts';
import { TwoWay } from '../../ui/two-way.tsx';
import { UndoLine } from '../../ui/undo-line.tsx';
import { clockAxis, sinceAxis } from './axes.ts';
import { Board } from './board.tsx';
import { CheckLine } from './check-line.tsx';
import { headline, nextCheck, nextStep } from './headline.ts';
import { ReadingsTable } from './readings-table.tsx';
import { asSeen } from '../stack.ts';
import { LaterLines } from './later-lines.tsx';
import { looksOf } from './look.ts';
import { WarningLines } from './warning-lines.tsx';
import { warningsOf } from './warnings.ts';
import { begunAt, type Row } from './rows.ts';
import styles from './settling-page.module.css';

type Props = {
  readonly overview: Overview;
  readonly rows: readonly Row[];
  readonly log: Output<'log.read'>;
  readonly now: number;
  readonly toleranceCents: number;
  readonly onYear: () => void;
};

const timeScales = [
  { value: 'clock', words: 'Clock time' },
  { value: 'since', words: 'Time since the peg move' },
] as const;

/** The verdict on the whole instrument, every course on its board or in a table, and when to listen again. */
export function SettlingPage({ overview, rows, log, now, toleranceCents, onYear }: Props) {
  const host = useHost();
  const { data: tunings } = useLibrary('tunings.list', {});
  const { data: settings } = useLibrary('settings.read', {});
  const { data: status } = useLibrary('library.status', {});
  const isChecking = useStore(checking, (state) => state.now !== null);
  const [timeScale, setTimeScale] = useState<(typeof timeScales)[number]['value']>('clock');
  const [isTable, setTable] = useState(false);
  const standing = useStanding(overview);
  const planned = usePlannedCheck(overview.stringSet.id) ?? null;
  const { data: remarks } = useRemarks(overview);
  const acknowledge = useAcknowledge();
  const warnings = warningsOf(rows, {
    strings: standing?.strings ?? [],
    seen: remarks?.warningsSeen ?? [],
    looksOf: (row) => looksOf(overview, remarks?.changes ?? [], row, now),
  });
  const { strong, rest } = nextStep(rows, { now, toleranceCents });
  const longest = Math.max(...rows.flatMap(({ strings }) => strings.map(({ since }) => now - since)));
  const axis = timeScale === 'clock' ? clockAxis(begunAt(rows), now) : sinceAxis(longest);
  const isUnheard = rows.some(({ verdict }) => verdict === 'unheard');
  const check = () => {
    if (tunings === undefined || settings === undefined) return;
    void beginCheck({ host, overview, tunings, settings, sound: soundFor(overview, settings, status) });
  };
  const undo = useUndo();
  useUndoKey(() => void takeBackLast());
  useKeys({ s: check });
  return (
    <div className={styles['page']}>
      <h1>{headline(rows, now)}</h1>
      {isChecking ? (
        <CheckLine />
      ) : (
        <div className={styles['title']}>
          <div className={styles['lead']}>
            {warnings.length === 0 ? null : (
              <WarningLines warnings={warnings} now={now} onSeen={(string) => acknowledge(overview.stringSet.id, string)} />
            )}
            {warnings.some(({ seenAt }) => seenAt === null) || strong + rest === '' ? null : (
              <p className="lead">
                <strong>{strong}</strong>
                {rest}
              </p>
            )}
          </div>
          <Button look={isUnheard ? 'solid' : 'framed'} shortcut="S" onPress={check}>
            Check the strings
          </Button>
        </div>
      )}
      {isTable ? (
        <ReadingsTable rows={rows} log={log} now={now} name={overview.instrument.name} />
      ) : (
        <Board rows={asSeen(rows, overview.instrument)} axis={axis} now={now} toleranceCents={toleranceCents} />
      )}
      {isTable || isUnheard || tunings === undefined || settings === undefined ? null : (
        <LaterLines overview={overview} tunings={tunings} settings={settings} log={log} now={now} />
      )}
      <div className={styles['bottom']}>
        {isTable ? null : <TwoWay label="Time scale" options={timeScales} value={timeScale} onChange={setTimeScale} />}
        <Button look="plain" onPress={() => setTable(!isTable)}>
          {isTable ? 'Charts' : 'Table'}
        </Button>
        <Button look="plain" onPress={onYear}>
          A year of {overview.instrument.name}
        </Button>
        {isTable ? <UndoLine last={undo.last} problem={undo.problem} onUndo={() => void takeBackLast()} /> : null}
        <p className={`small quiet ${styles['check']}`}>{nextCheck(rows, now, planned)}</p>
      </div>
    </div>
  );
}
