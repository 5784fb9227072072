import { useState } from 'react';
import { homePitches } from '#shared/instruments/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';
import { useChosenInstrument } from '../../stores/chosen.ts';
import type { LookedAt } from '../../stores/files.ts';
import { useLibrary } from '../../stores/library.ts';
import { useRemoval } from '../../stores/removal.ts';
import { stateOf, tuningOn } from '../../stores/strings.ts';
import { takeBackLast, useUndo } from '../../stores/undo.ts';
import { useUndoKey } from '../../ui/keys.ts';
import { Nothing } from '../../ui/nothing.tsx';
import { UndoLine } from '../../ui/undo-line.tsx';
import type { Ground } from './draft.ts';
import { shownOn } from './shown-on.ts';
import { FilesMenu } from './files-menu.tsx';
import { ImportPage } from './import-page.tsx';
import { NoTunings } from './no-tunings.tsx';
import { type SheetKind, SheetPage } from './sheet-page.tsx';
import { TuningForm } from './tuning-form.tsx';
import { TuningLibrary } from './tuning-library.tsx';

/** What stands in the place of the list. */
type Page =
  | { readonly kind: 'form'; readonly ground: Ground }
  | { readonly kind: 'sheet'; readonly tuning: Tuning; readonly sheet: SheetKind }
  | { readonly kind: 'import'; readonly file: LookedAt };

/** Tunings: one library for every instrument, shown as it is on the one in hand. */
export function TuningsScreen() {
  const overview = useChosenInstrument();
  const { data: overviews } = useLibrary('overview.read', {});
  const { data: tunings } = useLibrary('tunings.list', {});
  const { data: settings } = useLibrary('settings.read', {});
  const { data: songs } = useLibrary('songs.list', {});
  const [page, setPage] = useState<Page | null>(null);
  const { problem, remove } = useRemoval('tunings');
  const undo = useUndo();
  useUndoKey(() => void takeBackLast());
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
  const leave = () => setPage(null);
  if (page?.kind === 'form')
    return <TuningForm ground={page.ground} overview={overview} tunings={tunings} settings={settings} onLeave={leave} />;
  if (page?.kind === 'import') return <ImportPage file={page.file} onLeave={leave} />;
  if (page?.kind === 'sheet') {
    const to = tuningOn(overview, page.tuning, settings);
    if (to !== null) {
      return (
        <SheetPage
          kind={page.sheet}
          tuning={page.tuning}
          to={to}
          present={stateOf(overview, tunings, settings).tuning.pitches}
          overview={overview}
          referenceHertz={settings.referenceHertz}
          onLeave={leave}
        />
      );
    }
  }
  const open = (ground: Ground) => setPage({ kind: 'form', ground });
  const add = () => open({ tuning: null, shown: null, home: homePitches(overview.stringSet) });
  const undoLine = <UndoLine last={undo.last} problem={problem ?? undo.problem} onUndo={() => void takeBackLast()} />;
  const files = <FilesMenu instrument={overview.instrument} onLook={(file) => setPage({ kind: 'import', file })} />;
  if (tunings.length === 0) {
    return (
      <NoTunings overview={overview} onNew={add}>
        {files}
        {undoLine}
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
      undo={undoLine}
      files={files}
      onNew={add}
      onEdit={(tuning) => open({ tuning, ...shownOn(tuning, overview, settings) })}
      onStartFrom={(tuning) => open({ tuning: null, startsFrom: tuning, ...shownOn(tuning, overview, settings) })}
      onSheet={(tuning, sheet) => setPage({ kind: 'sheet', tuning, sheet })}
      onRemove={remove}
    />
  );
}
