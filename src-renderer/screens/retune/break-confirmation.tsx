import type { Overview } from '#shared/contract/index.ts';
import { confirmShare } from '#shared/tension/index.ts';
import { Button } from '../../ui/button.tsx';
import { Confirmation } from '../../ui/confirmation.tsx';
import { figure } from '../../ui/words.ts';
import { BreakBoard } from './break-board.tsx';
import { breakTitle, coursesWords } from './break-words.ts';
import type { Line } from './lines.ts';
import { pitchWords } from './sentences.ts';
import styles from './break-confirmation.module.css';

type Props = {
  readonly overview: Overview;
  /** The lines that come past the limit, and the numbers of the others that move. */
  readonly lines: readonly Line[];
  readonly others: readonly number[];
  /** What all strings pull together, in newtons; null where the figures of one are not known. */
  readonly pull: { readonly now: number; readonly after: number } | null;
  /** The same pitches with a capo, in a sentence; null where no capo helps. */
  readonly capo: string | null;
  readonly isOpen: boolean;
  readonly onLeave: () => void;
  readonly onGoOn: () => void;
  readonly onOthers: () => void;
};

/** Asks in words before a string is taken past the share of its breaking stress that is set as the limit. */
export function BreakConfirmation({ overview, lines, others, pull, capo, isOpen, onLeave, onGoOn, onOthers }: Props) {
  const courses = coursesWords(lines.map(({ number }) => number));
  const worst = lines.toSorted((a, b) => (b.after.breakShare ?? 0) - (a.after.breakShare ?? 0))[0];
  const share = Math.max(0, worst?.after.breakShare ?? 0);
  return (
    <Confirmation title={breakTitle(lines)} isOpen={isOpen} onClose={onLeave}>
      <p className="lead">
        At {pitchWords(worst?.to)} a fresh string carries about <strong>{figure(share * 100)} % of what breaks it.</strong> The limit is{' '}
        {figure(confirmShare * 100)} %.
        {share < 1 ? '' : ' That takes another string.'}
      </p>
      {worst === undefined ? null : <BreakBoard line={worst} />}
      <p className={styles['said']}>
        <strong>A string that breaks whips.</strong> Keep your face and everyone else’s away from it, protect your eyes, turn a little at a
        time and stop if a peg grips.
      </p>
      <p className={styles['said']}>
        {pull === null ? '' : `All strings together will pull ${figure(pull.after)} N instead of ${figure(pull.now)}. `}
        Stillstring estimates strings; it does not know the neck and bridge of {overview.instrument.name}. What its maker or a qualified
        luthier says goes before anything shown here.
      </p>
      {capo === null ? null : (
        <p className={styles['said']}>
          <strong>The same pitches at less pull:</strong> {capo}
        </p>
      )}
      <div className={styles['choices']}>
        <Button look="solid" shortcut="Esc" autoFocus onPress={onLeave}>
          Leave it
        </Button>
        <Button onPress={onGoOn}>
          Tighten {courses.toLowerCase()} to {figure(share * 100)} %
        </Button>
        {others.length === 0 ? null : (
          <div className={styles['others']}>
            <Button look="plain" onPress={onOthers}>
              Only {coursesWords(others).toLowerCase()}
            </Button>
          </div>
        )}
      </div>
    </Confirmation>
  );
}
