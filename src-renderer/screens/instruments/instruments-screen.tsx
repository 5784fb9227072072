import { useNavigate, useRouter, useSearch } from '@tanstack/react-router';
import type { Overview, Settings } from '#shared/contract/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';
import { useChosenInstrument } from '../../stores/chosen.ts';
import { useNow } from '../../stores/clock.ts';
import { useLibrary } from '../../stores/library.ts';
import { useRemoval } from '../../stores/removal.ts';
import { useEveryVerdict } from '../../stores/settling.ts';
import { stateOf } from '../../stores/strings.ts';
import { takeBackLast, useUndo } from '../../stores/undo.ts';
import { Button } from '../../ui/button.tsx';
import { useInSteps } from '../../ui/in-steps.ts';
import { useUndoKey } from '../../ui/keys.ts';
import { UndoLine } from '../../ui/undo-line.tsx';
import { type Address, keepInstrument } from '../address.ts';
import { DemoLine } from './demo-line.tsx';
import { FirstRun } from './first-run.tsx';
import { InstrumentRow } from './instrument-row.tsx';
import { NewInstrument } from './new-instrument.tsx';
import { boardScale } from './row-strings.ts';
import { needOf, standingOf, titleOf } from './standing.ts';
import styles from './instruments.module.css';

/** What the address calls a row that is not there yet. */
const newRow = 'new';

/** Instruments: every one at a glance; a row opens in place. */
export function InstrumentsScreen() {
  const { data: overviews } = useLibrary('overview.read', {});
  const { data: tunings } = useLibrary('tunings.list', {});
  const { data: settings } = useLibrary('settings.read', {});
  const { problem, remove } = useRemoval('instruments');
  const undo = useUndo();
  useUndoKey(() => void takeBackLast());
  const open = useOpenRow();
  const undoLine = <UndoLine last={undo.last} problem={problem ?? undo.problem} onUndo={() => void takeBackLast()} />;
  if (overviews === undefined || tunings === undefined || settings === undefined) return null;
  if (overviews.length === 0 && open.id !== newRow) {
    return <FirstRun onSetUp={() => open.set(newRow)}>{undoLine}</FirstRun>;
  }
  return <InstrumentList overviews={overviews} tunings={tunings} settings={settings} open={open} undo={undoLine} onRemove={remove} />;
}

type OpenRow = { readonly id: string | null; readonly set: (id: string | null) => void };

function useOpenRow(): OpenRow {
  const { open } = useSearch({ strict: false });
  const navigate = useNavigate();
  return {
    id: open ?? null,
    set: (id) =>
      void navigate({
        to: '/instruments',
        search: (before: Address) => ({ ...keepInstrument(before), ...(id === null ? {} : { open: id }) }),
      }),
  };
}

type ListProps = {
  readonly overviews: readonly Overview[];
  readonly tunings: readonly Tuning[];
  readonly settings: Settings;
  readonly open: OpenRow;
  readonly undo: React.ReactNode;
  readonly onRemove: (instrument: Overview['instrument']) => void;
};

function InstrumentList({ overviews, tunings, settings, open, undo, onRemove }: ListProps) {
  const now = useNow();
  const inHand = useChosenInstrument();
  const verdicts = useEveryVerdict(overviews, settings.toleranceCents);
  const rows = overviews
    .map((overview) => {
      const known = verdicts.get(overview.instrument.id);
      return {
        overview,
        verdicts: known,
        name: overview.instrument.name,
        standing: known === undefined ? null : standingOf(overview, known, stateOf(overview, tunings, settings).tuning.hertz, now),
      };
    })
    .sort((a, b) => needOf(a.standing) - needOf(b.standing));
  const pxPerMillimetre = boardScale(overviews.map(({ instrument }) => instrument.scaleLengthMillimetres));
  const isAdding = open.id === newRow;
  const router = useRouter();
  // Whoever has gone on meanwhile is not called back.
  const openSaved = (id: string) => {
    if (router.latestLocation.pathname === '/instruments') open.set(id);
  };
  const first =
    rows.find(({ overview }) => overview.instrument.id === open.id) ?? rows.find(({ overview }) => overview === inHand) ?? rows[0];
  const { shown, end } = useInSteps(rows.length, rows.findIndex(({ overview }) => overview.instrument.id === open.id) + 1);
  return (
    <div className={styles['page']}>
      <h1>{isAdding ? 'A new instrument' : titleOf(rows)}</h1>
      {isAdding ? <NewInstrument onLeave={() => open.set(null)} onSaved={openSaved} /> : null}
      <ul className={styles['list']} aria-label="Instruments" hidden={rows.length === 0}>
        {rows.slice(0, shown).map(({ overview, verdicts: known }) => (
          <InstrumentRow
            key={overview.instrument.id}
            overview={overview}
            tunings={tunings}
            settings={settings}
            verdicts={known}
            pxPerMillimetre={pxPerMillimetre}
            isOpen={open.id === overview.instrument.id}
            isFirst={!isAdding && overview === first?.overview}
            onToggle={(isOpen) => open.set(isOpen ? overview.instrument.id : null)}
            onRemove={() => onRemove(overview.instrument)}
          />
        ))}
        {end === null ? null : <li ref={end} aria-hidden="true" />}
      </ul>
      <div className={styles['bottom']}>
        {undo}
        <DemoLine />
        {rows.length === 0 || open.id !== null ? null : (
          <p className={`small faint ${styles['aside']}`}>In the order they need you. A straight column of beads is in tune.</p>
        )}
        {isAdding ? null : <Button onPress={() => open.set(newRow)}>New instrument</Button>}
      </div>
    </div>
  );
}
