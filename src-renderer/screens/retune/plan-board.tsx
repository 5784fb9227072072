import { beadPath } from '../../ui/bead.ts';
import { useSize } from '../../ui/size.ts';
import { stringWidth } from '../../ui/string-width.ts';
import { figure, ordinal } from '../../ui/words.ts';
import { bothMargins } from '../margins.ts';
import { type Line, moveWords } from './lines.ts';
import { pitchWords } from './sentences.ts';
import styles from './plan-board.module.css';

/** Semitones that the board shows to each side of wanted. */
const range = 8;
const beadHeight = { within: 20, aside: 26 };

const along = (semitones: number): number => 0.5 + Math.min(1, Math.max(-1, semitones / range)) / 2;

/** Every course of the plan: from, to, the way between on a board in semitones, hatched where it would be slack or break, and what it pulls. */
export function PlanBoard({ lines }: { readonly lines: readonly Line[] }) {
  return (
    <div className={styles['plan']}>
      <ul data-courses={lines.length > 4 ? 'many' : 'few'}>
        {lines.map((line) => (
          <li key={line.course} className={styles['row']} data-moves={line.turn !== null}>
            <div className={styles['head']}>
              <span className={`pitch ${styles['number']}`}>{line.number}</span>
              <div>
                <p className="pitch">
                  {line.turn === null || line.semitones === 0 ? (
                    pitchWords(line.to)
                  ) : (
                    <>
                      {pitchWords(line.from)} <span className="faint">→</span> {pitchWords(line.to)}
                    </>
                  )}
                </p>
                <p className="quiet">{line.turn === null ? 'stays' : `${ordinal(line.turn)}: ${moveWords(line)}`}</p>
              </div>
            </div>
            <Way line={line} />
            <div className={styles['tail']}>
              <p>{pullWords(line)}</p>
              <p className="small quiet">{bothMargins(line.after)}</p>
            </div>
          </li>
        ))}
      </ul>
      <div className={`small faint ${styles['axis']}`} aria-hidden="true">
        <span style={{ left: '0%', transform: 'none' }}>slack</span>
        {[-4, -2, 2, 4].map((semitones) => (
          <span key={semitones} style={{ left: `${along(semitones) * 100}%` }}>
            {Math.abs(semitones)} {semitones < 0 ? 'below' : 'above'}
          </span>
        ))}
        <span style={{ left: '50%' }}>wanted</span>
        <span style={{ left: '100%', transform: 'translateX(-100%)' }}>break</span>
        <span className={styles['unit']}>semitones from wanted</span>
      </div>
    </div>
  );
}

function Way({ line }: { readonly line: Line }) {
  const [board, { width, height: rowHeight }] = useSize<SVGSVGElement>();
  const middle = rowHeight / 2;
  const wall = 3 / 100;
  const x = (semitones: number): number => along(semitones) * width;
  const [left, right] = [x(-wall) - 7, x(wall) + 7];
  const now = -line.cents / 100;
  const [slack, breaks] = [line.after.slackIn, line.after.breakIn];
  const kind = line.turn === null ? 'within' : now < 0 ? 'below' : 'above';
  const thickness = stringWidth(line.gauge);
  return (
    <svg ref={board} className={styles['board']} aria-hidden="true">
      <defs>
        <pattern id={`hatch-${line.course}`} width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(30)">
          <line x1="0" y1="0" x2="0" y2="6" className={styles['hatch']} />
        </pattern>
      </defs>
      {Array.from({ length: range * 2 - 1 }, (_, index) => (
        <line key={index} className={styles['fret']} x1={x(index - range + 1)} x2={x(index - range + 1)} y1={0} y2={rowHeight} />
      ))}
      {slack === null ? null : <rect x={0} y={0} width={Math.max(0, x(-slack))} height={rowHeight} fill={`url(#hatch-${line.course})`} />}
      {breaks === null ? null : (
        <rect
          x={Math.min(width, x(breaks))}
          y={0}
          width={Math.max(0, width - x(breaks))}
          height={rowHeight}
          fill={`url(#hatch-${line.course})`}
        />
      )}
      <g className={line.turn === null ? styles['still'] : styles['string']} strokeWidth={thickness}>
        <line x1={0} x2={left} y1={middle} y2={middle} />
        <line x1={right} x2={width} y1={middle} y2={middle} />
      </g>
      {kind === 'within' ? null : (
        <line
          className={styles[kind]}
          strokeWidth={Math.max(3, thickness)}
          x1={now < 0 ? left : right}
          x2={x(now)}
          y1={middle}
          y2={middle}
        />
      )}
      <rect className={styles['wall']} x={left - 2} y={middle - 18} width={2} height={36} />
      <rect className={styles['wall']} x={right} y={middle - 18} width={2} height={36} />
      {width === 0 ? null : (
        <path
          className={styles[kind]}
          transform={`translate(${x(kind === 'within' ? 0 : now) - width / 2} 0)`}
          d={beadPath({ cents: 0, sigmaCents: 0, kind, height: kind === 'within' ? beadHeight.within : beadHeight.aside, width, middle })}
        />
      )}
    </svg>
  );
}

function pullWords({ now, after, turn }: Line): string {
  if (now.newtons === null || after.newtons === null) return 'pull not known';
  return turn === null ? `${figure(after.newtons, 1)} N` : `${figure(now.newtons, 1)} → ${figure(after.newtons, 1)} N`;
}
