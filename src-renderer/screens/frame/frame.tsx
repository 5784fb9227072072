import { Outlet, useMatches, useNavigate } from '@tanstack/react-router';
import { useStore } from 'zustand';
import { RouterProvider } from 'react-aria-components';
import { useChosenInstrument } from '../../stores/chosen.ts';
import { useLibrary } from '../../stores/library.ts';
import { useHost } from '../../stores/host.tsx';
import { retuning } from '../../stores/retuning.ts';
import { soundFor } from '../../stores/sound-choice.ts';
import { beginTouchUp } from '../../stores/touch-up.ts';
import { useKeys } from '../../ui/keys.ts';
import { FindAnything } from './find-anything.tsx';
import { InHand } from './in-hand.tsx';
import { Input } from './input.tsx';
import { Notice } from './notice.tsx';
import { Reminder } from './reminder.tsx';
import { ScreenStrings } from './screen-strings.tsx';
import { Sections } from './sections.tsx';
import { useWindowSettings } from './window-settings.ts';
import styles from './frame.module.css';

/** What stands around every screen: sections at the left, the instrument and the input at the top. */
export function Frame() {
  const navigate = useNavigate();
  // The screen that is shown, not the one that is still being loaded: it must not be begun anew while it waits.
  const shown = useMatches({ select: (matches) => matches.at(-1)?.pathname });
  const isListening = useStore(retuning, ({ now }) => now !== null && now.finishedAt === null);
  const isReady = useWindowSettings();
  const touchUp = useTouchUp();
  useKeys({
    t: () => {
      if (!isListening) touchUp();
    },
  });
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
        <main key={shown} className={styles['screen']}>
          <Notice />
          <Reminder />
          {isReady ? <Outlet /> : null}
        </main>
        <ScreenStrings />
      </div>
    </RouterProvider>
  );
}

/** One key from anywhere: the instrument in hand is brought back onto the tuning that it is in. */
function useTouchUp(): () => void {
  const host = useHost();
  const navigate = useNavigate();
  const overview = useChosenInstrument();
  const { data: tunings } = useLibrary('tunings.list', {});
  const { data: settings } = useLibrary('settings.read', {});
  const { data: status } = useLibrary('library.status', {});
  return () => {
    if (overview === null || tunings === undefined || settings === undefined) return;
    void navigate({ to: '/retune', search: { on: overview.instrument.id } });
    void beginTouchUp({ host, overview, tunings, settings, sound: soundFor(overview, settings, status) });
  };
}
