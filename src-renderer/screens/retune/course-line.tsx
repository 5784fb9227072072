import { useLayoutEffect, useRef } from 'react';
import { useStore } from 'zustand';
import { retuning } from '../../stores/retuning.ts';
import { alongString, frets } from '../../ui/scale.ts';
import { useSize } from '../../ui/size.ts';
import { stringWidth } from '../../ui/string-width.ts';
import { CourseHead, CourseTail } from './course-words.tsx';
import type { Beads } from './use-beads.ts';
import styles from './course-line.module.css';

type Props = { readonly course: number; readonly isActive: boolean; readonly toleranceCents: number; readonly beads: Beads };

/** One course, drawn as its string: words on the headstock, the notch and the bead on the board, figures on the body. */
export function CourseLine({ course, isActive, toleranceCents, beads }: Props) {
  return (
    <li className={styles['row']} data-active={isActive}>
      <CourseHead course={course} isActive={isActive} toleranceCents={toleranceCents} />
      <Board course={course} isActive={isActive} toleranceCents={toleranceCents} beads={beads} />
      <CourseTail course={course} isActive={isActive} />
    </li>
  );
}

function Board({ course, isActive, toleranceCents, beads }: Props) {
  const [board, { width, height }] = useSize<SVGSVGElement>();
  const strings = useStore(retuning, ({ now }) => now?.overview.stringSet.courses[course]?.strings ?? null);
  const isWaiting = useStore(
    retuning,
    ({ now }) => now?.coach.strings.some((one) => one.course === course && one.landedAtSeconds === null) ?? false,
  );
  const count = strings?.length ?? 1;
  const apart = isActive ? 40 : 20;
  const middleOf = (string: number): number => height / 2 + (string - (count - 1) / 2) * apart;
  const [left, right] = [alongString(-toleranceCents) * width, alongString(toleranceCents) * width];
  const wall = isActive ? { width: 3, height: 136 } : { width: 2, height: 40 };
  return (
    <svg ref={board} className={styles['board']} aria-hidden="true">
      {frets
        .flatMap(({ cents }) => [-cents, cents])
        .map((cents) => (
          <line key={cents} className={styles['fret']} x1={alongString(cents) * width} x2={alongString(cents) * width} y1={0} y2={height} />
        ))}
      {isActive ? <FretWords width={width} height={height} /> : null}
      {(strings ?? []).map((string, index) => (
        <g
          key={index}
          className={isActive || !isWaiting ? styles['string'] : styles['still']}
          strokeWidth={stringWidth(string.diameterMillimetres ?? 0.7)}
        >
          <line x1={0} x2={left} y1={middleOf(index)} y2={middleOf(index)} />
          <line x1={right} x2={width} y1={middleOf(index)} y2={middleOf(index)} />
        </g>
      ))}
      <Walls left={left} right={right} middle={height / 2} wall={wall} course={course} isActive={isActive} />
      {(strings ?? []).map((_, index) => (
        <StringMarks
          key={index}
          course={course}
          string={index}
          isActive={isActive}
          count={count}
          width={width}
          middle={middleOf(index)}
          beads={beads}
        />
      ))}
    </svg>
  );
}

type Wall = { readonly width: number; readonly height: number };

/** The two walls of the notch; they thicken while the string sounds inside its tolerance. */
function Walls({
  left,
  right,
  middle,
  wall,
  course,
  isActive,
}: {
  readonly left: number;
  readonly right: number;
  readonly middle: number;
  readonly wall: Wall;
  readonly course: number;
  readonly isActive: boolean;
}) {
  const isInside = useStore(
    retuning,
    ({ now }) => isActive && (now?.coach.strings.some((one) => one.course === course && one.inside.seconds > 0) ?? false),
  );
  const thick = isInside ? wall.width + 3 : wall.width;
  return (
    <>
      <rect className={styles['wall']} x={left - thick} y={middle - wall.height / 2} width={thick} height={wall.height} />
      <rect className={styles['wall']} x={right} y={middle - wall.height / 2} width={thick} height={wall.height} />
    </>
  );
}

type MarksProps = {
  readonly course: number;
  readonly string: number;
  readonly isActive: boolean;
  readonly count: number;
  readonly width: number;
  readonly middle: number;
  readonly beads: Beads;
};

/** A board wider than this has room for a larger bead, in px. */
const roomyBoard = 900;

/** Where one string was last heard, and its live bead. */
function StringMarks({ course, string, isActive, count, width, middle, beads }: MarksProps) {
  const path = useRef<SVGPathElement>(null);
  const last = useStore(retuning, ({ now }) => {
    const state = now?.coach.strings.find((one) => one.course === course && one.string === string);
    return state === undefined || state.landedAtSeconds !== null ? null : 1200 * Math.log2(state.presentHertz / state.aimHertz);
  });
  const isHeard = useStore(
    retuning,
    ({ now }) => now?.live?.match.kind === 'match' && now.live.match.course === course && now.live.match.string === string,
  );
  const height = count > 1 ? (isActive ? 36 : 18) : isActive ? (width > roomyBoard ? 60 : 40) : 26;
  useLayoutEffect(() => {
    const key = `${course}.${string}`;
    if (path.current !== null) beads.set(key, { course, string, path: path.current, board: { width, middle, height } });
    return () => {
      beads.delete(key);
    };
  }, [beads, course, string, width, middle, height]);
  return (
    <>
      {last === null || isHeard ? null : <circle className={styles['last']} cx={alongString(last) * width} cy={middle} r={5} />}
      <path ref={path} className={styles['bead']} />
    </>
  );
}

function FretWords({ width, height }: { readonly width: number; readonly height: number }) {
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
