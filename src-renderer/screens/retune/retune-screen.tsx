import { useSearch } from '@tanstack/react-router';
import { useStore } from 'zustand';
import { useChosenInstrument } from '../../stores/chosen.ts';
import { useLibrary } from '../../stores/library.ts';
import { retuning } from '../../stores/retuning.ts';
import { Nothing } from '../../ui/nothing.tsx';
import { DonePage } from './done-page.tsx';
import { ListenPage } from './listen-page.tsx';
import { PlanPage } from './plan-page.tsx';

/** Retune: plan, then listen, then done. */
export function RetuneScreen() {
  const overview = useChosenInstrument();
  const { to } = useSearch({ strict: false });
  const { data: tunings } = useLibrary('tunings.list', {});
  const { data: settings } = useLibrary('settings.read', {});
  const { data: overviews } = useLibrary('overview.read', {});
  const now = useStore(retuning, (state) => (state.now === null ? null : state.now.finishedAt === null ? 'listening' : 'done'));
  if (settings === undefined || tunings === undefined || overviews === undefined) return null;
  if (now === 'listening') return <ListenPage settings={settings} />;
  if (now === 'done') return <DonePage settings={settings} />;
  if (overview === null) {
    return (
      <Nothing
        title="Which instrument is in your hands?"
        sentence="Tell Stillstring its size and what it is strung with, then it can lead you from one tuning to another."
        to="/instruments"
        words="Set up an instrument"
      />
    );
  }
  const tuning = tunings.find(({ id }) => id === to) ?? null;
  return (
    <PlanPage
      key={`${overview.instrument.id} ${tuning?.id ?? ''}`}
      overview={overview}
      tunings={tunings}
      tuning={tuning}
      settings={settings}
    />
  );
}
