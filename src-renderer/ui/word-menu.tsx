import { Button, Menu, MenuItem, MenuTrigger, Popover } from 'react-aria-components';
import { Chevron } from './chevron.tsx';
import styles from './word-menu.module.css';

type Props = {
  readonly words: string;
  /** What the button is called where its words alone do not say it. */
  readonly label?: string;
  readonly items: readonly { readonly words: string; readonly onAction: () => void }[];
};

/** A few things to do, folded behind a word and a chevron. */
export const WordMenu = ({ words, label, items }: Props) => (
  <MenuTrigger>
    <Button className={styles['button'] ?? ''} {...(label === undefined ? {} : { 'aria-label': label })}>
      {words}
      <Chevron />
    </Button>
    <Popover className={styles['menu'] ?? ''} offset={4}>
      <Menu onAction={(key) => items.find((item) => item.words === key)?.onAction()}>
        {items.map((item) => (
          <MenuItem key={item.words} id={item.words} className={styles['item'] ?? ''}>
            {item.words}
          </MenuItem>
        ))}
      </Menu>
    </Popover>
  </MenuTrigger>
);
