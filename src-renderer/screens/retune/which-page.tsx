import { useNavigate } from '@tanstack/react-router';
import { useEffect, useState } from 'react';
import { useStore } from 'zustand';
import type { Overview, Settings } from '#shared/contract/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';
import { useBeIn } from '../../stores/be-in.ts';
import { useHost } from '../../stores/host.tsx';
import { useLibrary } from '../../stores/library.ts';
import { session } from '../../stores/session.ts';
import { soundFor } from '../../stores/sound-choice.ts';
import { beginWhich, type Candidate, endWhich, pluckAnew, which } from '../../stores/which.ts';
import { Button } from '../../ui/button.tsx';
import { useKeys } from '../../ui/keys.ts';
import { courseText } from '../../ui/words.ts';
import { hintOf, troubleOf } from './trouble.ts';
import { useRefusal } from './use-refusal.ts';
import { type WhichRow, whichRows, whichWords } from './which-words.ts';
import styles from './which-page.module.css';

type Props = { readonly overview: Overview; readonly tunings: readonly Tuning[]; readonly settings: Settings };

/** "What am I in?": every course plucked in any order tells which tunings of the library are near, and the moves to each. */
export function WhichPage({ overview, tunings, settings }: Props) {
  const navigate = useNavigate();
  const now = useStore(which, (state) => state.now);
  const trouble = useStore(session, ({ snapshot }) => troubleOf(snapshot)?.sentence ?? hintOf(snapshot));
  const refusal = useRefusal();
  const problem = useListening({ overview, tunings, settings });
  const beIn = useBeIn();
  const words = now === null ? null : whichWords(now, settings.referenceHertz);
  const rows = now === null ? [] : whichRows(now);
  const [first] = rows;
  const goTo = (to: Candidate['tuning']) =>
    void navigate({ to: '/retune', search: { on: overview.instrument.id, ...(to === null ? {} : { to: to.id }) } });
  const leave = () => goTo(tunings.find(({ id }) => id === overview.instrument.tuningId) ?? null);
  /** The instrument is taken to be in one tuning, and the plan to another, or to the same, is shown. */
  const take = (candidate: Candidate, to: Candidate) => {
    const { now: found } = which.getState();
    if (found?.plucked.answer.kind !== 'ranked' || beIn.isPending) return;
    beIn.mutate({ which: found, candidate, present: found.plucked.answer.present }, { onSuccess: () => goTo(to.tuning) });
  };
  const takeFirst = () => (first === undefined ? undefined : take(first.candidate, first.candidate));
  useKeys({ Enter: takeFirst, PageDown: takeFirst, Escape: leave, z: pluckAnew, PageUp: pluckAnew });
  return (
    <div className={styles['page']}>
      <h1>What is {overview.instrument.name} in?</h1>
      <output className={styles['words']}>
        <strong>{trouble ?? problem ?? refusal ?? words?.strong}</strong> {trouble === null ? words?.rest : ''}
      </output>
      <ul className={styles['list']}>
        {rows.map((row) => (
          <Row
            key={row.candidate.id}
            row={row}
            isFirst={row === first}
            onIn={() => take(row.candidate, row.candidate)}
            onPlan={() => take(first?.candidate ?? row.candidate, row.candidate)}
          />
        ))}
      </ul>
      {beIn.error === null ? null : <p role="alert">{beIn.error.message}</p>}
      <div className={styles['bottom']}>
        {first === undefined ? null : (
          <Button look="solid" shortcut="Enter" onPress={takeFirst}>
            It is in {first.candidate.here.name}
          </Button>
        )}
        <Button shortcut="Z" onPress={pluckAnew}>
          Start again
        </Button>
        <Button look="plain" shortcut="Esc" onPress={leave}>
          Leave it
        </Button>
        {rows.length < 2 ? null : (
          <p className={`small faint ${styles['aside']}`}>Planning one takes the instrument to be in the first. That can be undone.</p>
        )}
      </div>
    </div>
  );
}

type RowProps = { readonly row: WhichRow; readonly isFirst: boolean; readonly onIn: () => void; readonly onPlan: () => void };

/** One tuning. That the first is the one needs no second button. */
const Row = ({ row: { candidate, isIn, moves }, isFirst, onIn, onPlan }: RowProps) => (
  <li className={styles['row']}>
    <div>
      <p className={isIn ? `lead ${styles['in']}` : 'lead'}>{candidate.here.name}</p>
      <p className="quiet">{candidate.here.pitches.map((pitches) => courseText([...new Set(pitches)])).join(' ')}</p>
    </div>
    <p className={isIn ? undefined : 'quiet'}>{moves}</p>
    <div className={styles['choices']}>
      {isFirst ? null : (
        <Button look="plain" onPress={onIn}>
          It is in this
        </Button>
      )}
      {isIn ? null : <Button onPress={onPlan}>Plan it</Button>}
    </div>
  </li>
);

/** Listens for as long as the page is shown. Returns why it cannot, or null. */
function useListening({ overview, tunings, settings }: Props): string | null {
  const { data: status } = useLibrary('library.status', {});
  const host = useHost();
  const [problem, setProblem] = useState<string | null>(null);
  const isReady = status !== undefined;
  useEffect(() => {
    if (!isReady) return undefined;
    beginWhich({ host, overview, tunings, settings, sound: soundFor(overview, settings, status) }).catch((fault: unknown) =>
      setProblem(fault instanceof Error ? fault.message : String(fault)),
    );
    return endWhich;
    // It goes on until the page is left, whatever changes in the library meanwhile.
    // oxlint-disable-next-line react-hooks/exhaustive-deps
  }, [isReady, overview.instrument.id]);
  return problem;
}
