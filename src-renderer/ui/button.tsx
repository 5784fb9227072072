import type { ReactNode } from 'react';
import { Button as Pressable } from 'react-aria-components';
import styles from './button.module.css';

type Props = {
  readonly children: ReactNode;
  readonly onPress: () => void;
  /** One solid button a screen: the thing to do next. `plain` has no frame at all. */
  readonly look?: 'solid' | 'framed' | 'plain';
  /** The key that does the same, shown beside the words. */
  readonly shortcut?: string;
  readonly isDisabled?: boolean;
  readonly autoFocus?: boolean;
};

/** A button in words. */
export const Button = ({ children, onPress, look = 'framed', shortcut, isDisabled = false, autoFocus = false }: Props) => (
  <Pressable className={`${styles['button']} ${styles[look]}`} onPress={onPress} isDisabled={isDisabled} autoFocus={autoFocus}>
    {children}
    {shortcut === undefined ? null : <kbd className={styles['key']}>{shortcut}</kbd>}
  </Pressable>
);
