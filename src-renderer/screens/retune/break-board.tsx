import { confirmShare } from '#shared/tension/index.ts';
import { BeadMark, HollowMark } from '../../ui/bead-mark.tsx';
import { useSize } from '../../ui/size.ts';
import { stringWidth } from '../../ui/string-width.ts';
import { figure } from '../../ui/words.ts';
import type { Line } from './lines.ts';
import { pitchWords } from './sentences.ts';
import styles from './break-confirmation.module.css';

const height = 92;
const middle = 46;
/** Labels nearer to one another than this would run into each other, in px. */
const apart = 170;
/** About how wide a letter of a label is, in px. */
const letterWidth = 7.5;

/** One string between no pull at all and breaking: solid where it is now, hollow where it is to go, hatched beyond the limit. */
export function BreakBoard({ line: { from, to, now, after, gauge } }: { readonly line: Line }) {
  const [board, { width }] = useSize<SVGSVGElement>();
  const [before, then] = [now.breakShare, after.breakShare];
  if (then === null) return null;
  const x = (share: number): number => share * width;
  // Beyond what breaks it there is no place: its ring stands at the end.
  const ring = Math.min(x(then), width - 16);
  const isClose = before !== null && ring - x(before) < apart;
  const isAtEnd = width - ring < 110;
  const words = `${pitchWords(to)}: ${figure(then * 100)} %`;
  const wordsBegin = isAtEnd ? width - 8 - letterWidth * words.length : ring - 16;
  return (
    <svg ref={board} className={styles['board']} height={height} aria-hidden="true">
      <defs>
        <pattern id="beyond-limit" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(30)">
          <line x1="0" y1="0" x2="0" y2="6" className={styles['hatch']} />
        </pattern>
      </defs>
      <rect x={x(confirmShare)} y={0} width={width - x(confirmShare)} height={height} fill="url(#beyond-limit)" />
      <line className={styles['string']} strokeWidth={stringWidth(gauge)} x1={0} x2={width} y1={middle} y2={middle} />
      <g className={`small ${styles['words']}`}>
        <text x={8} y={height - 10}>
          no pull
        </text>
        <text x={x(confirmShare) - 6} y={21} textAnchor="end">
          limit {figure(confirmShare * 100)} %
        </text>
        {before === null || width === 0 ? null : (
          <text x={isClose ? Math.min(x(before) + 20, wordsBegin - 12) : x(before)} y={height - 10} textAnchor={isClose ? 'end' : 'middle'}>
            now, {pitchWords(from)}: {figure(before * 100)} %
          </text>
        )}
        <text
          className={styles['then']}
          x={isAtEnd ? width - 8 : ring - (isClose ? 16 : 0)}
          y={height - 10}
          textAnchor={isAtEnd ? 'end' : isClose ? 'start' : 'middle'}
        >
          {words}
        </text>
        {isAtEnd ? null : (
          <text x={width - 8} y={height - 10} textAnchor="end">
            breaks
          </text>
        )}
      </g>
      {before === null || width === 0 ? null : (
        <>
          <line className={styles['way']} x1={x(before) + 12} x2={ring - 12} y1={middle} y2={middle} />
          <BeadMark x={x(before)} y={middle} height={26} kind="below" />
          <HollowMark x={ring} y={middle} height={24} />
        </>
      )}
    </svg>
  );
}
