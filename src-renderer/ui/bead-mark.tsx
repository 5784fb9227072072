import { type BeadKind, beadPath } from './bead.ts';
import styles from './bead-mark.module.css';

type Props = { readonly x: number; readonly y: number; readonly height: number; readonly kind: BeadKind };

/** A bead of a known pitch: upright, its middle at (x, y) px of the drawing that it stands in. */
export const BeadMark = ({ x, y, height, kind }: Props) => (
  <path
    className={`${styles['bead']} ${styles[kind]}`}
    transform={`translate(${x} ${y})`}
    d={beadPath({ cents: 0, sigmaCents: 0, kind, height, width: 0, middle: 0 })}
  />
);

/** Hollow is later: where a string is going to be. */
export const HollowMark = ({ x, y, height }: Omit<Props, 'kind'>) => <circle className={styles['hollow']} cx={x} cy={y} r={height / 2} />;
