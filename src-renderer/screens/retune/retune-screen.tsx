import { useSearch } from '@tanstack/react-router';
import { useMemo } from 'react';
import { useStore } from 'zustand';
import type { Overview, Settings } from '#shared/contract/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';
import { useChosenInstrument } from '../../stores/chosen.ts';
import { useNow } from '../../stores/clock.ts';
import { useLibrary } from '../../stores/library.ts';
import { planRetune } from '../../stores/plan.ts';
import { retuning } from '../../stores/retuning.ts';
import { horizonSeconds, useLog } from '../../stores/settling.ts';
import { Nothing } from '../../ui/nothing.tsx';
import { DonePage } from './done-page.tsx';
import { ListenPage } from './listen-page.tsx';
import { PlanPage } from './plan-page.tsx';

/** Retune: plan, then listen, then done. */
export function RetuneScreen() {
  const overview = useChosenInstrument();
  const { on, to } = useSearch({ strict: false });
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

/** Plans with what the log of the strings teaches, with a lead and without. */
function Planning({ overview, tunings, tuning, settings }: PlanningProps) {
  const now = Math.floor(useNow() / minute) * minute;
  const leadUntil = now + horizonSeconds * 1000;
  const { data: log } = useLog(overview);
  // What the log teaches of every string takes a while to work out: it is done when something changed, and once a minute.
  const plans = useMemo(() => {
    if (log === undefined) return undefined;
    const plan = (until: number | null) => planRetune({ overview, tunings, tuning, settings, log, leadUntil: until, now });
    return { withLead: plan(leadUntil), withoutLead: plan(null) };
  }, [overview, tunings, tuning, settings, log, leadUntil, now]);
  if (plans === undefined || log === undefined) return null;
  const { withLead, withoutLead } = plans;
  if (withLead === null || withoutLead === null) {
    const title = `${tuning?.name ?? 'This tuning'} has other courses than ${overview.instrument.name}`;
    return <Nothing title={title} sentence="Choose one that the instrument can take." to="/tunings" words="Go to the tunings" />;
  }
  return (
    <PlanPage
      overview={overview}
      tunings={tunings}
      tuning={tuning}
      settings={settings}
      withLead={withLead}
      withoutLead={withoutLead}
      now={now}
      leadUntil={leadUntil}
      log={log}
    />
  );
}
