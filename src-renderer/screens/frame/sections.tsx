import { Link, useLocation, useNavigate } from '@tanstack/react-router';
import { Button, Menu, MenuItem, MenuTrigger, Popover } from 'react-aria-components';
import { Chevron } from '../../ui/chevron.tsx';
import { keepInstrument } from '../address.ts';
import { sections } from '../sections.ts';
import styles from './sections.module.css';

type Props = { readonly isFolded: boolean; readonly isStrip?: boolean };

/** The sections as words; a strip while listening; one word with a chevron where the window is narrow. */
export function Sections({ isFolded, isStrip = false }: Props) {
  const { pathname } = useLocation();
  const here = sections.find(({ path }) => path === pathname)?.words ?? (pathname === '/settings' ? 'Settings' : 'Stillstring');
  if (isFolded) return <FoldedSections here={here} className={styles['folded'] ?? ''} />;
  if (isStrip) return <FoldedSections here={here} className={styles['strip'] ?? ''} />;
  return (
    <>
      <ul className={styles['list']}>
        {sections.map(({ path, words }) => (
          <li key={path}>
            <Link
              to={path}
              search={keepInstrument}
              className={styles['section']}
              activeProps={{ className: styles['here'] ?? '', 'aria-current': 'page' }}
            >
              {words}
            </Link>
          </li>
        ))}
      </ul>
      <Link to="/settings" className={styles['section']} activeProps={{ className: styles['here'] ?? '', 'aria-current': 'page' }}>
        Settings, help
      </Link>
    </>
  );
}

function FoldedSections({ here, className }: { readonly here: string; readonly className: string }) {
  const navigate = useNavigate();
  return (
    <div className={className}>
      <MenuTrigger>
        <Button aria-label={`${here}: go to another section`} className={styles['word'] ?? ''}>
          <span>{here}</span>
          <Chevron />
        </Button>
        <Popover className={styles['menu'] ?? ''} offset={4}>
          <Menu onAction={(path) => void navigate({ to: String(path), search: keepInstrument })}>
            {[...sections, { path: '/settings', words: 'Settings, help' }].map(({ path, words }) => (
              <MenuItem key={path} id={path} className={styles['item'] ?? ''}>
                {words}
              </MenuItem>
            ))}
          </Menu>
        </Popover>
      </MenuTrigger>
    </div>
  );
}
