import { ToggleButton, ToggleButtonGroup } from 'react-aria-components';
import styles from './word-choice.module.css';

type Props = {
  readonly label: string;
  readonly options: readonly { readonly value: string; readonly words: string }[];
  readonly value: string;
  readonly onChange: (value: string) => void;
};

/** One of a few words in a row, without a frame; the chosen one is underlined. */
export const WordChoice = ({ label, options, value, onChange }: Props) => (
  <ToggleButtonGroup
    aria-label={label}
    className={styles['words'] ?? ''}
    selectionMode="single"
    disallowEmptySelection
    selectedKeys={[value]}
    onSelectionChange={(keys) => {
      for (const key of keys) onChange(String(key));
    }}
  >
    {options.map((option) => (
      <ToggleButton key={option.value} id={option.value} className={styles['word'] ?? ''}>
        <span>{option.words}</span>
      </ToggleButton>
    ))}
  </ToggleButtonGroup>
);
