import { type Retuning, retuning } from '../../stores/retuning.ts';
import { alongString } from '../../ui/scale.ts';
import { beadHeight, type BoardLook } from './board-look.ts';
import { type Hollow as Ring, hollowOf } from './hollow-words.ts';
import { useCalm } from './use-calm.ts';
import styles from './hollow.module.css';

type Props = {
  readonly course: number;
  readonly string: number;
  readonly look: BoardLook;
  readonly count: number;
  readonly width: number;
  readonly middle: number;
  /** Where the course's first and last strings lie: the words stand over the one and under the other. */
  readonly first: number;
  readonly last: number;
  /** The walls of the notch, which the words keep clear of. */
  readonly left: number;
  readonly right: number;
};

/** The hollow bead: what the string is expected to reach by itself. Dots lead to it; words say what and when. */
export function Hollow({ course, string, look, count, width, middle, first, last, left, right }: Props) {
  const hollow = useCalm(retuning, ({ now }) => (now === null ? none : hollowIn(now, course, string)), `${course}.${string}`);
  if (hollow.ringCents === null || width === 0) return null;
  const [ring, bead] = [alongString(hollow.ringCents) * width, alongString(hollow.beadCents) * width];
  const way = Math.sign(ring - bead);
  const radius = beadHeight(look, count, width) / 2;
  const [from, to] = [bead + way * radius, ring - way * radius];
  if (way * (to - from) <= 0) return null;
  const beside = ring + way * (radius + 10);
  const x = way > 0 ? Math.max(beside, right + 10) : Math.min(beside, left - 10);
  const anchor = way > 0 ? 'start' : 'end';
  return (
    <g className={styles['hollow']}>
      <line className={styles['under']} x1={from} x2={ring} y1={middle} y2={middle} />
      <line className={styles['dots']} x1={from} x2={to} y1={middle} y2={middle} />
      <circle className={styles['ring']} cx={ring} cy={middle} r={radius - 1.5} />
      {hollow.hasWords ? (
        <g className="small">
          <text className={styles['what']} x={x} y={first - 8} textAnchor={anchor}>
            {hollow.what}
          </text>
          <text className={styles['after']} x={x} y={last + 19} textAnchor={anchor}>
            {hollow.after}
          </text>
        </g>
      ) : null}
    </g>
  );
}

/** The ring of one string; the words of a course stand once. */
function hollowIn({ expected, coach, to }: Retuning, course: number, string: number): typeof none {
  const own = expected.find((one) => one.course === course && one.string === string);
  const state = coach.strings.find((one) => one.course === course && one.string === string);
  if (own === undefined || state === undefined || state.landedAtSeconds === null) return none;
  const hasWords = expected.find((one) => one.course === course) === own;
  return { ...hollowOf(own, state, to.pitches[course] ?? [], to.pitches.length), hasWords };
}

const none: Ring & { readonly hasWords: boolean } = { ringCents: null, beadCents: 0, what: '', after: '', hasWords: false };
