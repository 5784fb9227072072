import { type KeyboardEvent, useLayoutEffect, useRef, useState } from 'react';
import { useSize } from '../../ui/size.ts';
import { type ListGround, ListContext } from './list-context.ts';
import { type Lie, rowByKey, rowsInSight, topOf, topToShow } from './rows-in-sight.ts';
import { TuningItem } from './tuning-item.tsx';
import type { TuningRow } from './tuning-rows.ts';
import styles from './tunings.module.css';

type Props = {
  readonly entries: readonly TuningRow[];
  readonly opened: TuningRow | null;
  readonly ground: Omit<ListGround, 'boardWidth'>;
  readonly isFocused: boolean;
  readonly onOpen: (id: string | null) => void;
  readonly onPlan: (id: string) => void;
};

/** Until it is measured; narrow windows have taller rows. */
const usualRowHeight = 57;
/** Rows drawn to each side of those in sight. The list is drawn anew whenever it was scrolled by so many. */
const spare = 4;

/**
 * The tunings as a list: a grid of one column, of which only the rows in sight are in the page. Arrow keys, Home, End and a page at a time go from row
 * to row and open them, Enter or a double click plans, Escape closes.
 */
export function TuningList({ entries, opened, ground, isFocused, onOpen, onPlan }: Props) {
  const [board, { width }] = useSize<HTMLDivElement>();
  const [probe, { height: measured }] = useSize<HTMLDivElement>();
  const [list, { height }] = useSize<HTMLTableElement>();
  const [partHeight, setPartHeight] = useState(0);
  const [scrolled, setScrolled] = useState(0);
  const [activeId, setActiveId] = useState<string | null>(null);
  const goesTo = useRef<string | null>(isFocused ? (opened?.tuning.id ?? null) : null);
  const rowHeight = measured || usualRowHeight;
  const openIndex = opened === null ? -1 : entries.indexOf(opened);
  const lie: Lie = {
    count: entries.length,
    rowHeight,
    open: openIndex < 0 ? null : { index: openIndex, height: rowHeight + partHeight },
  };
  const view = { top: scrolled, height: height || window.innerHeight };
  const at = entries.findIndex(({ tuning }) => tuning.id === activeId);
  const active = at >= 0 ? at : Math.max(0, openIndex);
  useLayoutEffect(() => {
    if (goesTo.current === null) return;
    const row = list.current?.querySelector<HTMLElement>(`[data-id="${CSS.escape(goesTo.current)}"]`);
    if (row === null || row === undefined) return;
    goesTo.current = null;
    row.focus({ preventScroll: true });
  });
  const go = (index: number, opens: boolean): void => {
    const [element, row] = [list.current, entries[index]];
    if (element === null || row === undefined) return;
    goesTo.current = row.tuning.id;
    setActiveId(row.tuning.id);
    element.scrollTop = topToShow(lie, { top: element.scrollTop, height: element.clientHeight }, index);
    if (opens) onOpen(row.tuning.id);
  };
  const onKey = (event: KeyboardEvent): void => {
    if (event.key === 'Escape' && opened !== null) {
      event.preventDefault();
      go(openIndex, false);
      onOpen(null);
      return;
    }
    const row = entries[active];
    // Keys belong to the row itself, not to what can be written in it.
    if (event.target !== event.currentTarget || row === undefined) return;
    const next = rowByKey(event.key, active, { count: entries.length, page: Math.max(1, Math.floor(view.height / rowHeight) - 1) });
    if (next !== null) go(next, !event.ctrlKey && !event.metaKey);
    else if (event.key === 'Enter') onPlan(row.tuning.id);
    else if (event.key === ' ') onOpen(row === opened ? null : row.tuning.id);
    else return;
    event.preventDefault();
  };
  return (
    <ListContext value={{ ...ground, boardWidth: Math.floor(width) }}>
      <div className={styles['probe']} aria-hidden="true">
        <div ref={probe}>
          <div className={styles['row']}>
            <div className={styles['head']} />
            <div ref={board} className={styles['cannot']} />
            <div className={styles['tail']} />
          </div>
        </div>
      </div>
      <table
        ref={list}
        className={styles['list']}
        // A table whose rows are gone through by keyboard is a grid (W3C ARIA Authoring Practices).
        // oxlint-disable-next-line jsx-a11y/no-noninteractive-element-to-interactive-role
        role="grid"
        aria-label="Tunings"
        aria-rowcount={entries.length}
        onScroll={({ currentTarget: { scrollTop } }) => setScrolled(scrollTop - (scrollTop % (spare * rowHeight)))}
      >
        <tbody style={{ height: topOf(lie, entries.length) }}>
          {rowsInSight(lie, view, 2 * spare, [active, openIndex]).map((index) => {
            const row = entries[index];
            return row === undefined ? null : (
              <TuningItem
                key={row.tuning.id}
                row={row}
                index={index}
                top={topOf(lie, index)}
                isOpen={row === opened}
                isActive={index === active}
                onKey={onKey}
                onActive={setActiveId}
                onOpen={onOpen}
                onPlan={onPlan}
                onPartHeight={setPartHeight}
              />
            );
          })}
        </tbody>
      </table>
    </ListContext>
  );
}
