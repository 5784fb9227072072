import { GridList, ListLayout, Virtualizer } from 'react-aria-components';
import { useSize } from '../../ui/size.ts';
import { TuningItem } from './tuning-item.tsx';
import { type ListGround, ListContext } from './list-context.ts';
import type { TuningRow } from './tuning-rows.ts';
import styles from './tunings.module.css';

type Props = {
  readonly entries: readonly TuningRow[];
  readonly opened: TuningRow | null;
  readonly ground: Omit<ListGround, 'openId' | 'boardWidth'>;
  readonly isFocused: boolean;
  readonly onOpen: (id: string | null) => void;
  readonly onPlan: (id: string) => void;
};

/** Only the rows in sight are drawn; an open one is measured. */
const layoutOptions = { estimatedRowHeight: 57 };

/** The tunings as a list. What its rows share comes to them by context, so that the list keeps the rows that it has while others come and go. */
export function TuningList({ entries, opened, ground, isFocused, onOpen, onPlan }: Props) {
  const [board, { width }] = useSize<HTMLDivElement>();
  return (
    <ListContext value={{ ...ground, openId: opened?.tuning.id ?? null, boardWidth: Math.floor(width) }}>
      <div className={styles['probe']} aria-hidden="true">
        <div className={styles['row']}>
          <div className={styles['head']} />
          <div ref={board} className={styles['cannot']} />
          <div className={styles['tail']} />
        </div>
      </div>
      <Virtualizer layout={ListLayout} layoutOptions={layoutOptions}>
        <GridList
          className={styles['list'] ?? ''}
          aria-label="Tunings"
          items={withOpened(entries, opened)}
          selectionMode="single"
          selectionBehavior="replace"
          disallowTypeAhead
          keyboardNavigationBehavior="tab"
          autoFocus={isFocused}
          selectedKeys={opened === null ? [] : [opened.tuning.id]}
          onSelectionChange={(keys) => onOpen(keys === 'all' ? null : ([...keys].map(String)[0] ?? null))}
          onAction={(key) => onPlan(String(key))}
        >
          {renderRow}
        </GridList>
      </Virtualizer>
    </ListContext>
  );
}

/** The opened row is another object than it was closed, so that it is measured anew; all others stay what they are. */
const withOpened = (entries: readonly TuningRow[], opened: TuningRow | null): readonly TuningRow[] =>
  opened === null ? entries : entries.map((row) => (row === opened ? { ...row } : row));

const renderRow = (row: TuningRow) => <TuningItem id={row.tuning.id} row={row} />;
