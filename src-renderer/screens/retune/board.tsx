import { useStore } from 'zustand';
import { retuning } from '../../stores/retuning.ts';
import { alongString, frets } from '../../ui/scale.ts';
import { useSize } from '../../ui/size.ts';
import { stringWidth } from '../../ui/string-width.ts';
import type { BoardLook } from './board-look.ts';
import { Hollow } from './hollow.tsx';
import { StringMarks } from './string-marks.tsx';
import type { Beads } from './use-beads.ts';
import styles from './board.module.css';

type Props = { readonly course: number; readonly look: BoardLook; readonly toleranceCents: number; readonly beads: Beads };

/** Distance of the strings of a double course, and the walls of the notch, in px; a wall goes beyond the outer strings by so much at least. */
const measures = {
  still: { apart: 18, wall: { width: 2, height: 40, beyond: 26 } },
  active: { apart: 72, wall: { width: 3, height: 136, beyond: 96 } },
  far: { apart: 110, wall: { width: 4, height: 200, beyond: 120 } },
} as const;
const thickenedBy = 3;

/** The string of a course, or its strings, between nut and saddle. */
export function Board({ course, look, toleranceCents, beads }: Props) {
  const [board, { width, height }] = useSize<SVGSVGElement>();
  const strings = useStore(retuning, ({ now }) => now?.overview.stringSet.courses[course]?.strings ?? null);
  const isWaiting = useStore(
    retuning,
    ({ now }) => now?.coach.strings.some((one) => one.course === course && one.landedAtSeconds === null) ?? false,
  );
  const { apart, wall } = measures[look];
  const count = strings?.length ?? 1;
  const span = (count - 1) * apart;
  const isTurned = useStore(retuning, ({ now }) => now?.overview.instrument.upsideDown ?? false);
  const middleOf = (string: number): number => height / 2 - span / 2 + (isTurned ? count - 1 - string : string) * apart;
  const wallHeight = Math.max(wall.height, span + wall.beyond);
  const [left, right] = [alongString(-toleranceCents) * width, alongString(toleranceCents) * width];
  const at = { course, look, count, width };
  return (
    <svg ref={board} className={styles['board']} data-look={look} aria-hidden="true">
      {look === 'far' ? null : <Frets width={width} height={height} />}
      {look === 'active' ? <FretWords width={width} height={height} /> : null}
      {(strings ?? []).map((string, index) => (
        <g
          key={index}
          className={look === 'still' && isWaiting ? styles['still'] : styles['string']}
          strokeWidth={stringWidth(string.diameterMillimetres ?? 0.7) + (look === 'far' ? 1.5 : 0)}
        >
          <line x1={0} x2={left} y1={middleOf(index)} y2={middleOf(index)} />
          <line x1={right} x2={width} y1={middleOf(index)} y2={middleOf(index)} />
        </g>
      ))}
      {width === 0 ? null : (
        <Walls course={course} left={left} right={right} top={(height - wallHeight) / 2} width={wall.width} height={wallHeight} />
      )}
      {look === 'far'
        ? null
        : (strings ?? []).map((_, index) => (
            <Hollow
              key={index}
              {...at}
              string={index}
              middle={middleOf(index)}
              first={(height - span) / 2}
              last={(height + span) / 2}
              left={left}
              right={right}
            />
          ))}
      {(strings ?? []).map((_, index) => (
        <StringMarks key={index} {...at} string={index} middle={middleOf(index)} beads={beads} />
      ))}
    </svg>
  );
}

type WallsProps = {
  readonly course: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
};

/** The two walls of the notch; they thicken while the string sounds inside its tolerance. */
function Walls({ course, left, right, top, width, height }: WallsProps) {
  const isInside = useStore(
    retuning,
    ({ now }) => now?.coach.strings.some((one) => one.course === course && one.inside.seconds > 0) ?? false,
  );
  const thick = isInside ? width + thickenedBy : width;
  return (
    <>
      <rect className={styles['wall']} x={left - thick} y={top} width={thick} height={height} />
      <rect className={styles['wall']} x={right} y={top} width={thick} height={height} />
    </>
  );
}

type Size = { readonly width: number; readonly height: number };

function Frets({ width, height }: Size) {
  return frets
    .flatMap(({ cents }) => [-cents, cents])
    .map((cents) => (
      <line key={cents} className={styles['fret']} x1={alongString(cents) * width} x2={alongString(cents) * width} y1={0} y2={height} />
    ));
}

function FretWords({ width, height }: Size) {
  const at = (cents: number) => alongString(cents) * width;
  return (
    <g className={`small ${styles['words']}`}>
      <text x={at(-200) + 6} y={30} textAnchor="start">
        a tone below
      </text>
      <text x={at(200) - 6} y={30} textAnchor="end">
        a tone above
      </text>
      {frets
        .slice(0, 3)
        .flatMap(({ cents, words }) => [-cents, cents].map((one) => ({ cents: one, words })))
        .map(({ cents, words }) => (
          <text key={cents} x={at(cents) + offset(cents)} y={height - 16} textAnchor="middle">
            {words}
          </text>
        ))}
      <text x={width / 2} y={height - 16} textAnchor="middle">
        aim
      </text>
    </g>
  );
}

/** The words for a semitone and for half of one stand close: they are drawn a little apart. */
const offset = (cents: number): number =>
  Math.abs(cents) === 100 ? Math.sign(cents) * 18 : Math.abs(cents) === 50 ? Math.sign(cents) * -4 : 0;
