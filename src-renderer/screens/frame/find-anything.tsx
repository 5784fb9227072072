import { useNavigate } from '@tanstack/react-router';
import { useEffect, useState } from 'react';
import {
  Autocomplete,
  Dialog,
  Header,
  Input,
  Menu,
  MenuItem,
  MenuSection,
  Modal,
  ModalOverlay,
  SearchField,
  useFilter,
} from 'react-aria-components';
import type { Overview } from '#shared/contract/index.ts';
import { carry } from '#shared/tunings/index.ts';
import { homePitches } from '#shared/instruments/index.ts';
import { useChosenInstrument } from '../../stores/chosen.ts';
import { useLibrary } from '../../stores/library.ts';
import { type StringVerdict, useEveryVerdict } from '../../stores/settling.ts';
import type { Address } from '../address.ts';
import { sections } from '../sections.ts';
import { slippingOf } from '../slipping.ts';
import styles from './find-anything.module.css';

/** One thing that can be found: what it is called, and where choosing it leads. */
type Find = { readonly id: string; readonly words: string; readonly detail: string; readonly to: string; readonly search: Address };
type Group = { readonly heading: string; readonly finds: readonly Find[] };

/** Ctrl or Cmd and K, from anywhere: instruments, tunings, songs and screens by name. */
export function FindAnything() {
  const [isOpen, setOpen] = useState(false);
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      if (event.key.toLowerCase() !== 'k' || !(event.ctrlKey || event.metaKey)) return;
      event.preventDefault();
      setOpen((open) => !open);
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, []);
  return (
    <ModalOverlay className={styles['behind'] ?? ''} isOpen={isOpen} isDismissable onOpenChange={setOpen}>
      <Modal className={styles['page'] ?? ''}>
        <Dialog aria-label="Find an instrument, a tuning, a song or a screen" className={styles['dialog'] ?? ''}>
          <Finder onDone={() => setOpen(false)} />
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}

function Finder({ onDone }: { readonly onDone: () => void }) {
  const navigate = useNavigate();
  const { contains } = useFilter({ sensitivity: 'base' });
  const groups = useFinds();
  const go = (id: string) => {
    const find = groups.flatMap(({ finds }) => finds).find((one) => one.id === id);
    onDone();
    if (find !== undefined) void navigate({ to: find.to, search: find.search });
  };
  return (
    <Autocomplete filter={contains}>
      <SearchField aria-label="Find" autoFocus className={styles['field'] ?? ''}>
        <Input className={styles['input'] ?? ''} placeholder="An instrument, a tuning, a song, a screen" />
      </SearchField>
      <Menu
        className={styles['list'] ?? ''}
        aria-label="Found"
        onAction={(id) => go(String(id))}
        renderEmptyState={() => <p className={styles['none']}>Nothing by that name.</p>}
      >
        {groups.map(({ heading, finds }) => (
          <MenuSection key={heading}>
            <Header className={`small faint ${styles['heading']}`}>{heading}</Header>
            {finds.map(({ id, words, detail }) => (
              <MenuItem key={id} id={id} textValue={words} className={styles['item'] ?? ''}>
                <strong>{words}</strong> <span className="quiet">{detail}</span>
              </MenuItem>
            ))}
          </MenuSection>
        ))}
      </Menu>
    </Autocomplete>
  );
}

const none: readonly Overview[] = [];

const slippingWords = (verdicts: readonly StringVerdict[], courses: number): readonly string[] => {
  const slipping = slippingOf(verdicts, courses);
  return slipping === null ? [] : [slipping.words];
};

/** Everything that can be found, the instrument in hand taken in: only tunings that it can take. */
function useFinds(): readonly Group[] {
  const chosen = useChosenInstrument();
  const { data: overviews } = useLibrary('overview.read', {});
  const { data: tunings } = useLibrary('tunings.list', {});
  const { data: songs } = useLibrary('songs.list', {});
  const { data: settings } = useLibrary('settings.read', {});
  const verdicts = useEveryVerdict(overviews ?? none, settings?.toleranceCents ?? 3);
  const on: Address = chosen === null ? {} : { on: chosen.instrument.id };
  const home = chosen === null ? null : homePitches(chosen.stringSet);
  const fitting = (tunings ?? []).filter((tuning) => home !== null && carry(tuning, home) !== null);
  const groups: readonly Group[] = [
    {
      heading: 'Screens',
      finds: [...sections, { path: '/settings', words: 'Settings, help' }]
        .map(({ path, words }) => ({
          id: path,
          words,
          detail: '',
          to: path,
          search: on,
        }))
        .concat(
          chosen === null
            ? []
            : [
                {
                  id: 'which',
                  words: 'What am I in?',
                  detail: `pluck every course of ${chosen.instrument.name}`,
                  to: '/retune',
                  search: { ...on, open: 'which' },
                },
              ],
        ),
    },
    {
      heading: 'Instruments',
      finds: (overviews ?? []).map(({ instrument, stringSet }) => ({
        id: instrument.id,
        words: instrument.name,
        detail: [instrument.kind, ...slippingWords(verdicts.get(instrument.id) ?? [], stringSet.courses.length)].join(', '),
        to: '/settling',
        search: { on: instrument.id },
      })),
    },
    {
      heading: 'Tunings',
      finds: fitting.map(({ id, name }) => ({
        id: `tuning ${id}`,
        words: name,
        detail: `plan it on ${chosen?.instrument.name ?? ''}`,
        to: '/retune',
        search: { ...on, to: id },
      })),
    },
    {
      heading: 'Songs',
      finds: (songs ?? []).flatMap(({ id, title, tuningId, instrumentId }) =>
        tuningId === null
          ? []
          : [
              {
                id: `song ${id}`,
                words: title,
                detail: tunings?.find((tuning) => tuning.id === tuningId)?.name ?? '',
                to: '/retune',
                search: { ...(instrumentId === null ? on : { on: instrumentId }), to: tuningId },
              },
            ],
      ),
    },
  ];
  return groups.filter(({ finds }) => finds.length > 0);
}
