import { Button } from './button.tsx';
import styles from './undo-line.module.css';

type Props = {
  /** What was done last, in words without a full stop; null where nothing was. */
  readonly last: string | null;
  /** What did not work, in a sentence; or null. */
  readonly problem: string | null;
  readonly onUndo: () => void;
};

/** A quiet line that says what was done last, with the way back. */
export const UndoLine = ({ last, problem, onUndo }: Props) => (
  <>
    {problem === null ? null : <p role="alert">{problem}</p>}
    <output className={styles['line']}>
      {last === null ? null : (
        <>
          <span className={styles['words']}>{last}.</span>
          <Button look="plain" shortcut="Ctrl Z" onPress={onUndo}>
            Undo
          </Button>
        </>
      )}
    </output>
  </>
);
