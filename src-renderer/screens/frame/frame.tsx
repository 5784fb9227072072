import { Outlet, useLocation, useNavigate } from '@tanstack/react-router';
import { useStore } from 'zustand';
import { useEffect } from 'react';
import { RouterProvider } from 'react-aria-components';
import { useLibrary } from '../../stores/library.ts';
import { retuning } from '../../stores/retuning.ts';
import { FindAnything } from './find-anything.tsx';
import { InHand } from './in-hand.tsx';
import { Input } from './input.tsx';
import { Notice } from './notice.tsx';
import { Sections } from './sections.tsx';
import styles from './frame.module.css';

/** What stands around every screen: sections at the left, the instrument and the input at the top. */
export function Frame() {
  const navigate = useNavigate();
  const { pathname } = useLocation();
  const isListening = useStore(retuning, ({ now }) => now !== null && now.finishedAt === null);
  useTheme();
  return (
    <RouterProvider navigate={(to) => void navigate({ to })}>
      <div className={`${styles['frame']} ${isListening ? styles['listening'] : ''}`}>
        <header className={styles['top']}>
          <Sections isFolded />
          <InHand />
          <FindAnything />
          <Input />
        </header>
        <nav className={styles['sections']} aria-label="Sections">
          <Sections isFolded={false} isStrip={isListening} />
        </nav>
        <main key={pathname} className={styles['screen']}>
          <Notice />
          <Outlet />
        </main>
      </div>
    </RouterProvider>
  );
}

/** The theme that the player set, on the document. */
function useTheme(): void {
  const { data } = useLibrary('settings.read', {});
  const theme = data?.theme ?? 'system';
  useEffect(() => {
    if (theme === 'system') delete document.documentElement.dataset['theme'];
    else document.documentElement.dataset['theme'] = theme;
  }, [theme]);
}
