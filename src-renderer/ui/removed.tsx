import { Button } from './button.tsx';
import styles from './removed.module.css';

type Props = {
  /** What was removed last; null where nothing was. */
  readonly name: string | null;
  /** Why a removal or its undoing did not work, in a sentence; or null. */
  readonly problem: string | null;
  readonly onUndo: () => void;
};

/** A quiet line after something was removed, with the way back. */
export const Removed = ({ name, problem, onUndo }: Props) => (
  <>
    {problem === null ? null : <p role="alert">{problem}</p>}
    {name === null ? null : (
      <output className={styles['removed']}>
        <span>Removed {name}.</span>
        <Button look="plain" onPress={onUndo}>
          Undo
        </Button>
      </output>
    )}
  </>
);
