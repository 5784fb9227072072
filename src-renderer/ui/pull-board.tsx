import type { ReactNode } from 'react';
import type { BeadKind } from './bead.ts';
import { BeadMark, HollowMark } from './bead-mark.tsx';
import { useSize } from './size.ts';
import { stringWidth } from './string-width.ts';
import styles from './pull-board.module.css';

/** What one string pulls: now, and later where that differs; null where its figures are not known. Newtons. */
export type PullLine = {
  readonly id: string;
  readonly number: number;
  readonly head: ReactNode;
  readonly tail: ReactNode;
  readonly now: number | null;
  readonly later: number | null;
  readonly kind: BeadKind;
  readonly gauge: number;
};

type Props = {
  readonly title: string;
  readonly lines: readonly PullLine[];
  /** Least and greatest usual pull in newtons, with the words for it; null where nothing is published for the size. */
  readonly usual: { readonly newtons: readonly [number, number]; readonly words: string } | null;
  readonly together: ReactNode;
};

/** Bars from zero, one a string: solid is now, hollow is later; the usual range lies behind them. */
export function PullBoard({ title, lines, usual, together }: Props) {
  const most = Math.max(usual?.newtons[1] ?? 0, ...lines.flatMap(({ now, later }) => [now ?? 0, later ?? 0]));
  const full = Math.max(20, Math.ceil((most * 1.08) / 20) * 20);
  return (
    <div>
      <div className={styles['row']}>
        <p className={`small quiet ${styles['head']}`} style={{ display: 'block' }}>
          {title}
        </p>
        <p className={`small faint ${styles['axis']}`} aria-hidden="true">
          <span style={{ left: 8 }}>0 N</span>
          {usual === null ? null : (
            <span style={{ left: `${(50 * (usual.newtons[0] + usual.newtons[1])) / full}%`, transform: 'translateX(-50%)' }}>
              {usual.words}
            </span>
          )}
          <span style={{ right: 8 }}>{full} N</span>
        </p>
        <p className={`small quiet ${styles['tail']}`}>{together}</p>
      </div>
      <ul>
        {lines.map((line) => (
          <li key={line.id} className={styles['row']}>
            <p className={styles['head']}>
              <span className="quiet">{line.number}</span>
              <span>{line.head}</span>
            </p>
            <Bar line={line} full={full} usual={usual?.newtons ?? null} />
            <p className={styles['tail']}>{line.tail}</p>
          </li>
        ))}
      </ul>
    </div>
  );
}

function Bar({ line, full, usual }: { readonly line: PullLine; readonly full: number; readonly usual: readonly [number, number] | null }) {
  const [board, { width, height }] = useSize<SVGSVGElement>();
  const x = (newtons: number): number => (newtons / full) * width;
  const y = height / 2;
  const { now, later, kind, gauge } = line;
  return (
    <div className={styles['board']}>
      <svg ref={board} aria-hidden="true">
        {usual === null ? null : <rect className={styles['usual']} x={x(usual[0])} y={0} width={x(usual[1] - usual[0])} height={height} />}
        <line className={styles['rest']} x1={0} x2={width} y1={y} y2={y} />
        {now === null || width === 0 ? null : (
          <>
            <line className={styles['string']} strokeWidth={stringWidth(gauge)} x1={0} x2={x(now)} y1={y} y2={y} />
            {later !== null && later > now ? (
              <line className={styles['way']} strokeWidth={3} x1={x(now)} x2={x(later)} y1={y} y2={y} />
            ) : null}
            <BeadMark x={x(now)} y={y} height={16} kind={kind} />
            {later === null || Math.abs(later - now) < 0.05 ? null : <HollowMark x={x(later)} y={y} height={14} />}
          </>
        )}
      </svg>
    </div>
  );
}
