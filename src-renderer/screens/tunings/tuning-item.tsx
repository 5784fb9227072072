import { type KeyboardEvent, useLayoutEffect } from 'react';
import type { Overview, Settings } from '#shared/contract/index.ts';
import { useNow } from '../../stores/clock.ts';
import { beadKind } from '../../ui/bead.ts';
import { useSize } from '../../ui/size.ts';
import { SmallBoard } from '../../ui/small-board.tsx';
import { when } from '../../ui/time.ts';
import { count, courseText } from '../../ui/words.ts';
import { gravest } from '../judged.ts';
import { inLetters } from '../numbers.ts';
import { type ListGround, useListGround } from './list-context.ts';
import { OpenTuning } from './open-tuning.tsx';
import { relatives } from './relatives.ts';
import type { Here } from './here.ts';
import { moveCount, moveWords, type TuningRow } from './tuning-rows.ts';
import styles from './tunings.module.css';

const noTwins: readonly string[] = [];
const rowHeight = 57;
/** Semitones that a small board shows to each side of wanted. */
const range = 8;
const slotHalf = 7;
const along = (semitones: number): number => 0.5 + Math.min(1, Math.max(-1, semitones / range)) / 2;

type Props = {
  readonly row: TuningRow;
  readonly index: number;
  /** Where it begins in the list, in px. */
  readonly top: number;
  readonly isOpen: boolean;
  /** The row that Tab goes to. */
  readonly isActive: boolean;
  readonly onKey: (event: KeyboardEvent) => void;
  readonly onActive: (id: string) => void;
  readonly onOpen: (id: string) => void;
  readonly onPlan: (id: string) => void;
  /** Called with the height of what is below the row while it is open, in px. */
  readonly onPartHeight: (height: number) => void;
};

/** One tuning: its pitches on the instrument in hand, where each string is now, and what has to be moved. */
export function TuningItem({ row, index, top, isOpen, isActive, onKey, onActive, onOpen, onPlan, onPartHeight }: Props) {
  const { id, name } = row.tuning;
  return (
    <tr
      className={styles['item']}
      style={{ transform: `translateY(${top}px)` }}
      aria-label={name}
      aria-rowindex={index + 1}
      aria-selected={isOpen}
      tabIndex={isActive ? 0 : -1}
      data-id={id}
      onFocus={() => onActive(id)}
      onKeyDown={onKey}
      onClick={() => (isOpen ? undefined : onOpen(id))}
      onDoubleClick={({ target }) => (isWrittenIn(target) ? undefined : onPlan(id))}
    >
      <td>
        <Contents row={row} isOpen={isOpen} />
        {isOpen ? <Part row={row} onHeight={onPartHeight} /> : null}
      </td>
    </tr>
  );
}

const isWrittenIn = (target: EventTarget): boolean => target instanceof Element && target.closest('input, textarea, button') !== null;

const twinsOf = ({ tuning }: TuningRow, { twins }: ListGround): readonly string[] => twins.get(tuning.id) ?? noTwins;

function Contents({ row, isOpen }: { readonly row: TuningRow; readonly isOpen: boolean }) {
  const ground = useListGround();
  const { overview, settings, lastUsed, boardWidth } = ground;
  const { tuning, here } = row;
  const pitches = here?.to.pitches ?? tuning.courses.map((course) => course.pitches);
  return (
    <div className={styles['row']}>
      <div className={styles['head']}>
        <p className={styles['title']}>
          <strong>{tuning.name}</strong>
          <span className="small quiet">
            {here === null ? '' : [...(here.chord === null ? [] : [here.chord]), here.stringing].join(' · ')}
          </span>
        </p>
        <p className={styles['pitches']} data-many={pitches.length > 4}>
          {pitches.map((strings, course) => (
            <span key={course}>{courseText(strings)}</span>
          ))}
        </p>
      </div>
      {here === null ? (
        <div className={styles['cannot']} />
      ) : (
        <Board overview={overview} here={here} settings={settings} isLit={isOpen} room={boardWidth} />
      )}
      <div className={styles['tail']}>
        <Tail
          row={row}
          twins={twinsOf(row, ground)}
          used={lastUsed === null ? null : (lastUsed.get(tuning.id) ?? 'never')}
          name={overview.instrument.name}
        />
      </div>
    </div>
  );
}

/** What an open row shows below itself. */
function Part({ row, onHeight }: { readonly row: TuningRow; readonly onHeight: (height: number) => void }) {
  const ground = useListGround();
  const { overview, others, tunings, kin, songs, settings } = ground;
  const [part, { height }] = useSize<HTMLDivElement>();
  useLayoutEffect(() => {
    if (height > 0) onHeight(height);
  }, [height, onHeight]);
  return (
    <div ref={part}>
      <OpenTuning
        tuning={row.tuning}
        here={row.here}
        tunings={tunings}
        related={relatives(row.tuning, kin, twinsOf(row, ground), overview.instrument.name)}
        overview={overview}
        others={others}
        songs={songs}
        settings={settings}
      />
    </div>
  );
}

/** `same as Open C`, `same as 2 others`. */
const twinWords = (twins: readonly string[]): readonly string[] =>
  twins.length === 0 ? [] : [`same as ${twins.length === 1 ? twins.join('') : `${twins.length} others`}`];

type BoardProps = {
  readonly overview: Overview;
  readonly here: Here;
  readonly settings: Settings;
  readonly isLit: boolean;
  readonly room: number;
};

const Board = ({ overview, here, settings, isLit, room }: BoardProps) => (
  <SmallBoard
    height={rowHeight}
    room={room}
    inset={5}
    slotHalf={slotHalf}
    isLit={isLit}
    courses={here.away.map((strings, course) =>
      strings.map((semitones, string) => {
        // A course that stays is shown in the slot: what it drifted by is for a touch-up, not for a choice of tuning.
        const stays = here.moves[course]?.semitones === 0 && Math.abs(semitones) < 0.5;
        return {
          gauge: overview.stringSet.courses[course]?.strings[string]?.diameterMillimetres ?? 0.7,
          at: along(stays ? 0 : semitones),
          kind: stays ? 'within' : beadKind(semitones * 100, 0, settings.toleranceCents),
          isStill: stays,
        };
      }),
    )}
  />
);

function Tail({
  row: { tuning, here },
  twins,
  used,
  name,
}: {
  readonly row: TuningRow;
  readonly twins: readonly string[];
  /** When it was last gone to, where the list is in that order; else null. */
  readonly used: number | 'never' | null;
  readonly name: string;
}) {
  const now = useNow();
  if (here === null) {
    return (
      <>
        <p className="quiet">{name} can’t take it</p>
        <p className="small quiet">{inLetters(tuning.courses.length)} courses</p>
      </>
    );
  }
  const moves = moveWords(here.moves);
  const moving = moveCount(here.moves);
  const details = [
    used === null ? null : used === 'never' ? 'never used' : `used ${when(used, now)}`,
    moving === 0 ? null : count(moving, 'move'),
    gravest(here.judged, tuning.courses.length) ?? here.margin,
    here.to.sameShapes ? null : 'other shapes',
    ...twinWords(twins),
  ];
  return (
    <>
      <p>
        {moves.length === 0
          ? here.isHere
            ? `${name} is here`
            : 'nothing to turn'
          : moves.map(({ who, words }, index) => (
              <span key={who}>
                {index === 0 ? '' : ', '}
                <strong>{who}</strong> {words}
              </span>
            ))}
      </p>
      <p className="small quiet">{details.filter((words) => words !== null).join(', ')}</p>
    </>
  );
}
