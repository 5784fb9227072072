import { FieldError, Input, Label, Text, TextArea, TextField } from 'react-aria-components';
import styles from './field.module.css';

type Props = {
  readonly label: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
  /** A sentence on what is wrong, or null. */
  readonly problem?: string | null;
  readonly hint?: string;
  readonly autoFocus?: boolean;
  readonly hideLabel?: boolean;
  readonly placeholder?: string;
  /** More than one line. */
  readonly isLong?: boolean;
  /** Called when the player is through with the field: on leaving it, or on Enter; in a field of several lines on Ctrl or Cmd and Enter. */
  readonly onDone?: () => void;
  /** Called on Escape, beside `onDone`: it stays as it was. */
  readonly onDrop?: () => void;
};

/** A line to write in, with its label above and what is wrong below. */
export const Field = ({
  label,
  value,
  onChange,
  problem = null,
  hint,
  autoFocus = false,
  hideLabel = false,
  placeholder = '',
  isLong = false,
  onDone,
  onDrop,
}: Props) => (
  <TextField
    className={styles['field'] ?? ''}
    value={value}
    onChange={onChange}
    isInvalid={problem !== null}
    autoFocus={autoFocus}
    validationBehavior="aria"
    {...(hideLabel ? { 'aria-label': label } : {})}
    {...(onDone === undefined
      ? {}
      : {
          onBlur: onDone,
          onKeyDown: (event) => {
            if (event.key === 'Enter' && (!isLong || event.ctrlKey || event.metaKey)) onDone();
            if (event.key === 'Escape') onDrop?.();
          },
        })}
  >
    {hideLabel ? null : <Label className={`small quiet`}>{label}</Label>}
    {isLong ? (
      <TextArea className={`${styles['input']} ${styles['long']}`} rows={3} />
    ) : (
      <Input className={styles['input'] ?? ''} placeholder={placeholder} />
    )}
    {problem === null && hint !== undefined ? (
      <Text slot="description" className={`small faint`}>
        {hint}
      </Text>
    ) : null}
    <FieldError className={`small ${styles['problem']}`}>{problem}</FieldError>
  </TextField>
);
