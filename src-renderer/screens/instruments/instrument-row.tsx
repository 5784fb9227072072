import { useNavigate } from '@tanstack/react-router';
import { useEffect, useId, useRef, useState } from 'react';
import { Button as Pressable } from 'react-aria-components';
import type { Overview, Settings } from '#shared/contract/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';
import { useNow } from '../../stores/clock.ts';
import type { StringVerdict } from '../../stores/settling.ts';
import { stateOf } from '../../stores/strings.ts';
import { Button } from '../../ui/button.tsx';
import { alongString } from '../../ui/scale.ts';
import { SmallBoard } from '../../ui/small-board.tsx';
import { courseText } from '../../ui/words.ts';
import { SlipMark } from '../slip-mark.tsx';
import { slippingOf } from '../slipping.ts';
import { EditInstrument } from './edit-instrument.tsx';
import { OpenInstrument } from './open-instrument.tsx';
import { rowStrings } from './row-strings.ts';
import { standingOf, verdictWord } from './standing.ts';
import styles from './instruments.module.css';

type Props = {
  readonly overview: Overview;
  readonly tunings: readonly Tuning[];
  readonly settings: Settings;
  /** Undefined until its log was read. */
  readonly verdicts: readonly StringVerdict[] | undefined;
  readonly pxPerMillimetre: number;
  readonly isOpen: boolean;
  /** The one whose plan is the thing to do next. */
  readonly isFirst: boolean;
  readonly onToggle: (isOpen: boolean) => void;
  readonly onRemove: () => void;
};

const boardHeight = 64;

/** One instrument: what it is in, its strings at a glance, its verdict; opened, everything that is known of it. */
export function InstrumentRow({ overview, tunings, settings, verdicts, pxPerMillimetre, isOpen, isFirst, onToggle, onRemove }: Props) {
  const navigate = useNavigate();
  const id = useId();
  const [isEditing, setEditing] = useState(false);
  const item = useRef<HTMLLIElement>(null);
  useEffect(() => {
    if (isOpen) item.current?.scrollIntoView({ block: isEditing ? 'start' : 'nearest' });
  }, [isOpen, isEditing]);
  const now = useNow();
  const { instrument } = overview;
  const toggle = () => {
    setEditing(false);
    onToggle(!isOpen);
  };
  const state = stateOf(overview, tunings, settings);
  const { tuning } = state;
  const standing = verdicts === undefined ? null : standingOf(overview, verdicts, tuning.hertz, now);
  const width = Math.round(instrument.scaleLengthMillimetres * pxPerMillimetre);
  return (
    <li ref={item} className={styles['item']} data-open={isOpen} data-hand={isFirst}>
      <div className={styles['row']}>
        <div className={styles['head']}>
          <h2 style={{ display: 'contents' }}>
            <Pressable className={styles['name'] ?? ''} aria-expanded={isOpen} aria-controls={id} onPress={toggle}>
              <strong>{instrument.name}</strong> <span className={styles['kind']}>{instrument.kind}</span>
              <SlipMark slipping={slippingOf(verdicts ?? [], overview.stringSet.courses.length)} />
            </Pressable>
          </h2>
          <p className={styles['pitches']}>
            {tuning.pitches.map((strings, course) => (
              <span key={course}>{courseText(strings)}</span>
            ))}
          </p>
          <p className="small quiet">{state.name}</p>
        </div>
        <div className={styles['board']}>
          <SmallBoard
            courses={rowStrings(overview, tuning, settings, verdicts ?? [])}
            height={boardHeight}
            width={width}
            slotHalf={(alongString(settings.toleranceCents) - 0.5) * width}
          />
        </div>
        <div className={styles['standing']}>
          {standing === null ? null : (
            <>
              <p className={`verdict ${styles['verdict']}`} data-asks={standing.verdict === 'settling' || standing.verdict === 'slipping'}>
                {verdictWord(standing.verdict)}
              </p>
              <p className="small quiet">{standing.reason}</p>
            </>
          )}
        </div>
        <div className={styles['action']}>
          <Button
            look={isFirst && !isEditing ? 'solid' : 'plain'}
            onPress={() => void navigate({ to: '/tunings', search: { on: instrument.id } })}
          >
            Choose a tuning
          </Button>
        </div>
      </div>
      <div id={id}>
        {!isOpen ? null : isEditing ? (
          <EditInstrument overview={overview} settings={settings} onLeave={() => setEditing(false)} />
        ) : (
          <OpenInstrument
            overview={overview}
            state={state}
            tunings={tunings}
            settings={settings}
            onEdit={() => setEditing(true)}
            onRemove={onRemove}
          />
        )}
      </div>
    </li>
  );
}
