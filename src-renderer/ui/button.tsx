import type { ReactNode } from 'react';
import { Button as Pressable } from 'react-aria-components';
import styles from './button.module.css';

type Props = {
  readonly children: ReactNode;
  /** Left out only where the button submits the form around it. */
  readonly onPress?: () => void;
  readonly submits?: boolean;
  /** One solid button a screen: the thing to do next. `plain` has no frame at all. */
  readonly look?: 'solid' | 'framed' | 'plain';
  /** The key that does the same, shown beside the words. */
  readonly shortcut?: string;
  readonly isDisabled?: boolean;
  readonly autoFocus?: boolean;
};

/** A button in words. */
export const Button = ({ children, onPress, submits = false, look = 'framed', shortcut, isDisabled = false, autoFocus = false }: Props) => (
  <Pressable
    className={`${styles['button']} ${styles[look]}`}
    type={submits ? 'submit' : 'button'}
    isDisabled={isDisabled}
    autoFocus={autoFocus}
    {...(onPress === undefined ? {} : { onPress })}
  >
    {children}
    {shortcut === undefined ? null : <kbd className={styles['key']}>{shortcut}</kbd>}
  </Pressable>
);
