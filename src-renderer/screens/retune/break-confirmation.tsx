import type { Overview } from '#shared/contract/index.ts';
import { confirmShare } from '#shared/tension/index.ts';
import { Button } from '../../ui/button.tsx';
import { Confirmation } from '../../ui/confirmation.tsx';
import { courseText, figure, listed } from '../../ui/words.ts';
import { BreakBoard } from './break-board.tsx';
import type { Line } from './lines.ts';
import styles from './break-confirmation.module.css';

type Props = {
  readonly overview: Overview;
  readonly lines: readonly Line[];
  /** What all strings pull together, in newtons; null where the figures of one are not known. */
  readonly pull: { readonly now: number; readonly after: number } | null;
  readonly isOpen: boolean;
  readonly onLeave: () => void;
  readonly onGoOn: () => void;
};

/** Asks in words before a string is taken past the share of its breaking stress that is set as the limit. */
export function BreakConfirmation({ overview, lines, pull, isOpen, onLeave, onGoOn }: Props) {
  const numbers = listed(lines.map(({ number }) => number));
  const courses = lines.length === 1 ? `Course ${numbers}` : `Courses ${numbers}`;
  const share = Math.max(0, ...lines.map(({ after }) => after.breakShare ?? 0));
  const worst = lines.toSorted((a, b) => (b.after.breakShare ?? 0) - (a.after.breakShare ?? 0))[0];
  return (
    <Confirmation title={`${courses} ${lines.length === 1 ? 'comes' : 'come'} close to breaking`} isOpen={isOpen} onClose={onLeave}>
      <p className="lead">
        At {listed(lines.map(({ to }) => courseText(to)))} a fresh string carries about{' '}
        <strong>{figure(share * 100)} % of what breaks it.</strong> The limit is {figure(confirmShare * 100)} %.
      </p>
      {worst === undefined ? null : <BreakBoard line={worst} />}
      <p>
        <strong>A string that breaks whips.</strong> Keep your face and everyone else’s away from it, protect your eyes, turn a little at a
        time and stop if a peg grips.
      </p>
      <p>
        {pull === null ? '' : `All strings together will pull ${figure(pull.after)} N instead of ${figure(pull.now)}. `}
        Stillstring estimates strings; it does not know the neck and bridge of {overview.instrument.name}. What its maker or a qualified
        luthier says goes before anything shown here.
      </p>
      <div className={styles['choices']}>
        <Button look="solid" shortcut="Esc" autoFocus onPress={onLeave}>
          Leave it
        </Button>
        <Button onPress={onGoOn}>
          Tighten {courses.toLowerCase()} to {figure(share * 100)} %
        </Button>
      </div>
    </Confirmation>
  );
}
