import { Button, Label, ListBox, ListBoxItem, Popover, Select, SelectValue } from 'react-aria-components';
import { Chevron } from './chevron.tsx';
import styles from './choice.module.css';

type Option = { readonly value: string; readonly words: string };
type Props = {
  readonly label: string;
  readonly options: readonly Option[];
  readonly value: string | null;
  readonly onChange: (value: string) => void;
  readonly hideLabel?: boolean;
  /** Shown while nothing is chosen. */
  readonly empty?: string;
  /** Words and a chevron, without a frame. */
  readonly isPlain?: boolean;
};

/** One of many, folded away behind a chevron. */
export const Choice = ({ label, options, value, onChange, hideLabel = false, empty = 'choose', isPlain = false }: Props) => (
  <Select
    className={styles['choice'] ?? ''}
    value={value}
    placeholder={empty}
    onChange={(key) => {
      if (key !== null) onChange(String(key));
    }}
    {...(hideLabel ? { 'aria-label': label } : {})}
  >
    {hideLabel ? null : <Label className="small quiet">{label}</Label>}
    <Button className={`${styles['button']} ${isPlain ? styles['plain'] : ''}`}>
      <SelectValue className={styles['value'] ?? ''} />
      <Chevron />
    </Button>
    <Popover className={styles['list'] ?? ''} offset={4}>
      <ListBox items={options.map((option) => ({ ...option, id: option.value }))}>
        {(option) => (
          <ListBoxItem className={styles['option'] ?? ''} textValue={option.words}>
            {option.words}
          </ListBoxItem>
        )}
      </ListBox>
    </Popover>
  </Select>
);
