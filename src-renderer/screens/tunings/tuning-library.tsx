import { useNavigate, useSearch } from '@tanstack/react-router';
import { useDeferredValue, useMemo, useRef, useState } from 'react';
import type { Overview, Settings } from '#shared/contract/index.ts';
import type { Song } from '#shared/sets/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';
import { useLastUsed } from '../../stores/last-used.ts';
import { Button } from '../../ui/button.tsx';
import { Choice } from '../../ui/choice.tsx';
import { Field } from '../../ui/field.tsx';
import { useKeys } from '../../ui/keys.ts';
import { WordChoice } from '../../ui/word-choice.tsx';
import { type Address, keepInstrument } from '../address.ts';
import type { SheetKind } from './sheet-page.tsx';
import { useLibraryRows } from './library-rows.ts';
import { everything, foundRows, type Order, siftOptions, sortedRows } from './sieve.ts';
import { NoneFits } from './none-fits.tsx';
import { TuningActions } from './tuning-actions.tsx';
import { TuningList } from './tuning-list.tsx';
import styles from './tunings.module.css';

type Props = {
  readonly overview: Overview;
  readonly others: readonly Overview[];
  readonly tunings: readonly Tuning[];
  readonly songs: readonly Song[];
  readonly settings: Settings;
  readonly undo: React.ReactNode;
  readonly files: React.ReactNode;
  readonly onNew: () => void;
  readonly onEdit: (tuning: Tuning) => void;
  readonly onStartFrom: (tuning: Tuning) => void;
  readonly onSheet: (tuning: Tuning, kind: SheetKind) => void;
  readonly onRemove: (tuning: Tuning) => void;
};

const orders: readonly { readonly value: Order; readonly words: string }[] = [
  { value: 'moves', words: 'Fewest moves first' },
  { value: 'used', words: 'Last used first' },
  { value: 'name', words: 'By name' },
];

/** The library: searched, sifted and in order; the row that the address names is open. */
export function TuningLibrary({
  overview,
  others,
  tunings,
  songs,
  settings,
  undo,
  files,
  onNew,
  onEdit,
  onStartFrom,
  onSheet,
  onRemove,
}: Props) {
  const navigate = useNavigate();
  const { open } = useSearch({ strict: false });
  const [query, setQuery] = useState('');
  const [sift, setSift] = useState(everything);
  const [order, setOrder] = useState<Order>('moves');
  const search = useRef<HTMLDivElement>(null);
  // Typing goes first; a long list follows as soon as it can.
  const wanted = useDeferredValue(query);
  const lastUsed = useLastUsed(overview, others, order === 'used');
  const { rows, twins, textOf, kin } = useLibraryRows(overview, tunings, songs, settings);
  const repeated = useMemo(() => new Set(kin.repeated.keys()), [kin]);
  const { name } = overview.instrument;
  const options = useMemo(() => siftOptions(rows, { instrument: name, repeated }), [rows, name, repeated]);
  const sorted = useMemo(() => sortedRows(rows, order, lastUsed), [rows, order, lastUsed]);
  const passing = options.some(({ value }) => value === sift) ? sift : everything;
  const shown = useMemo(
    () => foundRows(sorted, textOf, { query: wanted, sift: passing, repeated }),
    [sorted, textOf, wanted, passing, repeated],
  );
  const opened = shown.find(({ tuning }) => tuning.id === open) ?? null;
  const setOpen = (id: string | null) =>
    void navigate({
      to: '/tunings',
      replace: true,
      search: (before: Address) => ({ ...keepInstrument(before), ...(id === null ? {} : { open: id }) }),
    });
  const plan = (id: string) => {
    if (rows.find(({ tuning }) => tuning.id === id)?.here === null) return;
    void navigate({ to: '/retune', search: { on: overview.instrument.id, to: id } });
  };
  useKeys({ '/': () => search.current?.querySelector('input')?.focus() });
  return (
    <div className={styles['page']}>
      <h1 className="unseen">Tunings</h1>
      <div className={styles['search']} ref={search}>
        <Field label="Search" hideLabel placeholder="Search a name, a pitch, a chord or a song" value={query} onChange={setQuery} />
        <Button onPress={onNew}>New tuning</Button>
        {files}
      </div>
      <div className={styles['sift']}>
        <WordChoice label="Show" options={options} value={passing} onChange={setSift} />
        <Choice
          label="Order"
          hideLabel
          isPlain
          options={orders}
          value={order}
          onChange={(value) => setOrder(orders.find((one) => one.value === value)?.value ?? 'moves')}
        />
      </div>
      {rows.some(({ here }) => here !== null) ? null : <NoneFits overview={overview} tunings={tunings} />}
      {shown.length === 0 ? (
        <div className={styles['nothing']}>
          <p className="lead">
            {query.trim() === '' ? 'No tuning here.' : `No tuning here has “${query.trim()}” in its name, pitches, chord, tags or songs.`}
          </p>
          <Button
            onPress={() => {
              setQuery('');
              setSift(everything);
            }}
          >
            Show them all
          </Button>
        </div>
      ) : (
        <TuningList
          entries={shown}
          opened={opened}
          ground={{ overview, others, tunings, kin, songs, settings, twins, lastUsed: order === 'used' ? lastUsed : null }}
          isFocused={opened !== null && query === ''}
          onOpen={setOpen}
          onPlan={plan}
        />
      )}
      <div className={styles['bottom']}>
        {opened === null ? null : (
          <TuningActions
            row={opened}
            overview={overview}
            others={others}
            settings={settings}
            onPlan={() => plan(opened.tuning.id)}
            onEdit={() => onEdit(opened.tuning)}
            onStartFrom={() => onStartFrom(opened.tuning)}
            onSheet={(kind) => onSheet(opened.tuning, kind)}
            onRemove={() => onRemove(opened.tuning)}
          />
        )}
        {undo}
        {opened === null ? <p className={`small faint ${styles['aside']}`}>Bead: where the string is now, in semitones.</p> : null}
      </div>
    </div>
  );
}
