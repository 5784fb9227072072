import { Button } from './button.tsx';
import styles from './removed.module.css';

/** A quiet line after something was removed, with the way back. */
export const Removed = ({ name, onUndo }: { readonly name: string; readonly onUndo: () => void }) => (
  <output className={styles['removed']}>
    <span>Removed {name}.</span>
    <Button look="plain" onPress={onUndo}>
      Undo
    </Button>
  </output>
);
