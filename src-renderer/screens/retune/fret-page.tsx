import { useEffect, useState } from 'react';
import { useStore } from 'zustand';
import type { Overview, Settings } from '#shared/contract/index.ts';
import { beginFretting, endFretting, fretting, stepFretting } from '../../stores/fretting.ts';
import { useLibrary } from '../../stores/library.ts';
import { session } from '../../stores/session.ts';
import { soundFor } from '../../stores/sound-choice.ts';
import { Button } from '../../ui/button.tsx';
import { useKeys } from '../../ui/keys.ts';
import { fretAsked, fretRows } from './fret-words.ts';
import { hintOf, troubleOf } from './trouble.ts';
import { useRefusal } from './use-refusal.ts';
import styles from './fret-page.module.css';

type Props = {
  readonly overview: Overview;
  readonly present: readonly (readonly number[])[];
  readonly settings: Settings;
  readonly onLeave: () => void;
};

const skip = () => stepFretting(1);
const back = () => stepFretting(-1);

/** The 12th fret against the open string, course by course, one pluck each. */
export function FretPage({ overview, present, settings, onLeave }: Props) {
  const { data: status } = useLibrary('library.status', {});
  const now = useStore(fretting, (state) => state.now);
  const trouble = useStore(session, ({ snapshot }) => troubleOf(snapshot)?.sentence ?? hintOf(snapshot));
  const refusal = useRefusal();
  const [problem, setProblem] = useState<string | null>(null);
  useEffect(() => {
    beginFretting({ overview, present, settings, sound: soundFor(overview, settings, status) }).catch((fault: unknown) =>
      setProblem(fault instanceof Error ? fault.message : String(fault)),
    );
    return endFretting;
    // It goes on until the page is left, whatever changes in the library meanwhile.
    // oxlint-disable-next-line react-hooks/exhaustive-deps
  }, []);
  useKeys({ Escape: onLeave, Enter: onLeave, PageDown: skip, PageUp: back, z: back });
  const rows = now === null ? [] : fretRows(now);
  return (
    <div className={styles['page']}>
      <h1>The 12th fret of {overview.instrument.name}</h1>
      <output className={styles['asked']}>
        <strong>{problem ?? trouble ?? refusal ?? (now === null ? '' : fretAsked(now))}</strong>
      </output>
      <ul className={styles['list']}>
        {rows.map(({ course, number, cents, sentence }) => (
          <li key={course} className={styles['row']}>
            <span className={`pitch ${styles['number']}`}>{number}</span>
            <span className="pitch">{cents}</span>
            <span className="quiet">{sentence}</span>
          </li>
        ))}
      </ul>
      <p className="small quiet">
        A change of pull moves the neck and the strings’ height, so fretted notes shift with it. What stays within 5 c is hardly heard.
      </p>
      <div className={styles['bottom']}>
        <Button look="solid" shortcut="Esc" onPress={onLeave}>
          Done
        </Button>
        <Button shortcut="Page Down" onPress={skip} isDisabled={now === null || now.course === null}>
          Skip this course
        </Button>
        <Button look="plain" shortcut="Z" onPress={back}>
          Hear the last one again
        </Button>
      </div>
    </div>
  );
}
