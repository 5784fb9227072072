import { useState } from 'react';
import type { Overview, Settings } from '#shared/contract/index.ts';
import { homePitches } from '#shared/instruments/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';
import { useChosenInstrument } from '../../stores/chosen.ts';
import { useLibrary } from '../../stores/library.ts';
import { useRemoval } from '../../stores/removal.ts';
import { tuningOn } from '../../stores/strings.ts';
import { Nothing } from '../../ui/nothing.tsx';
import { Removed } from '../../ui/removed.tsx';
import type { Ground } from './draft.ts';
import { NoTunings } from './no-tunings.tsx';
import { TuningForm } from './tuning-form.tsx';
import { TuningLibrary } from './tuning-library.tsx';

/** Tunings: one library for every instrument, shown as it is on the one in hand. */
export function TuningsScreen() {
  const overview = useChosenInstrument();
  const { data: overviews } = useLibrary('overview.read', {});
  const { data: tunings } = useLibrary('tunings.list', {});
  const { data: settings } = useLibrary('settings.read', {});
  const { data: songs } = useLibrary('songs.list', {});
  const [editing, setEditing] = useState<Ground | null>(null);
  const { removed, problem, remove, undo } = useRemoval('tunings');
  if (overviews === undefined || tunings === undefined || settings === undefined || songs === undefined) return null;
  if (overview === null) {
    return (
      <Nothing
        title="Which instrument are they for?"
        sentence="A tuning is shown as it is on an instrument: its pitches there, how far each string has to go, and how much is left."
        to="/instruments"
        words="Set up an instrument"
      />
    );
  }
  if (editing !== null) return <TuningForm ground={editing} instrument={overview.instrument.name} onLeave={() => setEditing(null)} />;
  const add = () => setEditing({ tuning: null, shown: null, home: homePitches(overview.stringSet) });
  const removedLine = <Removed name={removed?.name ?? null} problem={problem} onUndo={undo} />;
  if (tunings.length === 0) {
    return (
      <NoTunings overview={overview} onNew={add}>
        {removedLine}
      </NoTunings>
    );
  }
  return (
    <TuningLibrary
      overview={overview}
      others={overviews.filter(({ instrument }) => instrument.id !== overview.instrument.id)}
      tunings={tunings}
      songs={songs}
      settings={settings}
      removed={removedLine}
      onNew={add}
      onEdit={(tuning) => setEditing(groundOf(tuning, overview, settings))}
      onRemove={remove}
    />
  );
}

/** A tuning opens as it is on the instrument in hand; where that cannot take it, as it was written. */
function groundOf(tuning: Tuning, overview: Overview, settings: Settings): Ground {
  const here = tuningOn(overview, tuning, settings);
  if (here === null) return { tuning, shown: tuning.courses.map(({ pitches }) => pitches), home: tuning.home };
  return { tuning, shown: here.pitches, home: homePitches(overview.stringSet) };
}
