import { ToggleButton, ToggleButtonGroup } from 'react-aria-components';
import styles from './two-way.module.css';

type Props<Value extends string> = {
  readonly label: string;
  readonly options: readonly { readonly value: Value; readonly words: string }[];
  readonly value: Value;
  readonly onChange: (value: Value) => void;
};

/** A choice between two or three, in one frame; the chosen half is lit and underlined. */
export function TwoWay<Value extends string>({ label, options, value, onChange }: Props<Value>) {
  return (
    <ToggleButtonGroup
      aria-label={label}
      className={styles['frame'] ?? ''}
      selectionMode="single"
      disallowEmptySelection
      selectedKeys={[value]}
      onSelectionChange={(keys) => {
        const chosen = options.find((option) => keys.has(option.value));
        if (chosen !== undefined) onChange(chosen.value);
      }}
    >
      {options.map((option) => (
        <ToggleButton key={option.value} id={option.value} className={styles['half'] ?? ''}>
          <span>{option.words}</span>
        </ToggleButton>
      ))}
    </ToggleButtonGroup>
  );
}
