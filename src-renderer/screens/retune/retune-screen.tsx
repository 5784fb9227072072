import { useSearch } from '@tanstack/react-router';
import { useMemo } from 'react';
import { useStore } from 'zustand';
import type { Overview, Settings } from '#shared/contract/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';
import { useChosenInstrument } from '../../stores/chosen.ts';
import { useNow } from '../../stores/clock.ts';
import { useLibrary } from '../../stores/library.ts';
import { wayTo } from '../../stores/plan.ts';
import { retuning } from '../../stores/retuning.ts';
import { useLog } from '../../stores/settling.ts';
import { Nothing } from '../../ui/nothing.tsx';
import { DonePage } from './done-page.tsx';
import { ListenPage } from './listen-page.tsx';
import { PlanPage } from './plan-page.tsx';
import { WhichPage } from './which-page.tsx';

/** Retune: plan, then listen, then done. */
export function RetuneScreen() {
  const overview = useChosenInstrument();
  const { on, to, open } = useSearch({ strict: false });
  const { data: tunings } = useLibrary('tunings.list', {});
  const { data: settings } = useLibrary('settings.read', {});
  const { data: overviews } = useLibrary('overview.read', {});
  const now = useStore(retuning, (state) => (state.now === null ? null : state.now.finishedAt === null ? 'listening' : 'done'));
  if (settings === undefined || tunings === undefined || overviews === undefined) return null;
  if (now === 'listening') return <ListenPage settings={settings} />;
  if (now === 'done') return <DonePage key={`${on} ${to}`} settings={settings} />;
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
  if (open === 'which') return <WhichPage key={overview.instrument.id} overview={overview} tunings={tunings} settings={settings} />;
  const tuning = tunings.find(({ id }) => id === to) ?? null;
  return (
    <Planning
      key={`${overview.instrument.id} ${tuning?.id ?? ''}`}
      overview={overview}
      tunings={tunings}
      tuning={tuning}
      settings={settings}
    />
  );
}

type PlanningProps = {
  readonly overview: Overview;
  readonly tunings: readonly Tuning[];
  readonly tuning: Tuning | null;
  readonly settings: Settings;
};

const minute = 60_000;

/** The way is known at once; what the log teaches of it follows. */
function Planning({ overview, tunings, tuning, settings }: PlanningProps) {
  const now = Math.floor(useNow() / minute) * minute;
  const { data: log } = useLog(overview);
  const way = useMemo(() => wayTo({ overview, tunings, tuning, settings }), [overview, tunings, tuning, settings]);
  if (way === null) {
    const title = `${tuning?.name ?? 'This tuning'} has other courses than ${overview.instrument.name}`;
    return <Nothing title={title} sentence="Choose one that the instrument can take." to="/tunings" words="Go to the tunings" />;
  }
  if (log === undefined) return null;
  return <PlanPage overview={overview} tunings={tunings} tuning={tuning} settings={settings} way={way} now={now} log={log} />;
}
