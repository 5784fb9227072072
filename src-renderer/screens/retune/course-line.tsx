import { Board } from './board.tsx';
import { CourseHead, CourseTail } from './course-words.tsx';
import type { Beads } from './use-beads.ts';
import styles from './course-line.module.css';

type Props = { readonly course: number; readonly isActive: boolean; readonly toleranceCents: number; readonly beads: Beads };

/** One course, drawn as its string: words on the headstock, the notch and the bead on the board, figures on the body. */
export function CourseLine({ course, isActive, toleranceCents, beads }: Props) {
  return (
    <li className={styles['row']} data-active={isActive}>
      <CourseHead course={course} isActive={isActive} />
      <Board course={course} look={isActive ? 'active' : 'still'} toleranceCents={toleranceCents} beads={beads} />
      <CourseTail course={course} isActive={isActive} />
    </li>
  );
}
