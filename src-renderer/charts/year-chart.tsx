import { useSize } from '../ui/size.ts';
import { shareAlong } from './axis.ts';
import { type BoardPicture, shareDown } from './board-picture.ts';
import styles from './year-chart.module.css';

/** What was heard of a string on one day, in cents from wanted, and the moment of the last of it. */
export type YearDay = { readonly at: number; readonly lowest: number; readonly highest: number; readonly last: number };

/** A year of one string: every day on which it was heard, and when it was changed. */
export type YearPicture = BoardPicture & { readonly changes: readonly number[]; readonly days: readonly YearDay[] };

const dotRadius = 3.5;

/** A year of one string, drawn; it fills its place. The words and the table that say the same stand beside it. */
export function YearChart({ picture }: { readonly picture: YearPicture }) {
  const [place, { width, height }] = useSize<HTMLDivElement>();
  const { axis, toleranceCents, stringWidth, frets, changes, days } = picture;
  const x = (at: number): number => shareAlong(axis, at) * width;
  const y = (cents: number): number => shareDown(picture, cents) * height;
  const kind = (cents: number): string => (Math.abs(cents) <= toleranceCents ? 'within' : cents < 0 ? 'below' : 'above');
  return (
    <div ref={place} className={styles['place']} aria-hidden="true">
      {width === 0 ? null : (
        <svg width={width} height={height}>
          <rect className={styles['slot']} x={0} y={y(toleranceCents)} width={width} height={y(-toleranceCents) - y(toleranceCents)} />
          {frets.map((at) => (
            <rect key={at} className={styles['month']} x={Math.round(x(at))} y={0} width={1} height={height} />
          ))}
          <rect className={styles['string']} x={0} y={y(0) - stringWidth / 2} width={width} height={stringWidth} />
          {changes.map((at) => (
            <rect key={at} className={styles['changed']} x={x(at) - 1.5} y={0} width={3} height={height} />
          ))}
          {days.map(({ at, lowest, highest }) => (
            <line key={at} className={styles['range']} x1={x(at)} x2={x(at)} y1={y(highest)} y2={y(lowest)} />
          ))}
          {days.map(({ at, last }) => (
            <circle key={at} className={styles[kind(last)]} cx={x(at)} cy={y(last)} r={dotRadius} />
          ))}
        </svg>
      )}
    </div>
  );
}
