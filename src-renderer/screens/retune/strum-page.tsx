import { useStore } from 'zustand';
import { retuning } from '../../stores/retuning.ts';
import { Button } from '../../ui/button.tsx';
import { pitchWords } from './sentences.ts';
import { Board } from './board.tsx';
import { CourseTail } from './course-words.tsx';
import { type Outcome, strumAsked, type Touch } from './strum-words.ts';
import { useCalm } from './use-calm.ts';
import type { Beads } from './use-beads.ts';
import styles from './strum-page.module.css';

/** All strings in one strum are asked for. */
export function StrumAsked() {
  const { word, how } = useCalm(retuning, ({ now }) => (now === null ? { word: '', how: '' } : strumAsked(now)), 'strum');
  return (
    <div className={styles['asked']}>
      <p className={styles['headline']}>{word}</p>
      <p className="lead quiet">{how}</p>
    </div>
  );
}

type Props = { readonly outcome: Outcome; readonly toleranceCents: number; readonly beads: Beads; readonly onShow: () => void };

/** What one strum told: the courses to touch as a sentence, the line of the first one lit, the others folded into words. */
export function StrumOutcome({ outcome, toleranceCents, beads, onShow }: Props) {
  const { touches, heard, rest, near, where, sure } = outcome;
  const course = touches[0]?.course ?? 0;
  const pitches = useStore(retuning, ({ now }) => now?.to.pitches);
  return (
    <div className={styles['outcome']}>
      <div>
        <p className={touches.length === 1 && touches[0]?.word !== 'pluck them' ? styles['headline'] : styles['several']}>
          {touches.length === 1 ? 'Only ' : null}
          {touches.map((touch, index) => (
            <TouchWords
              key={touch.course}
              touch={touch}
              isFirst={index === 0 && touches.length > 1}
              isLast={index === touches.length - 1}
            />
          ))}
        </p>
        <p className="lead quiet">{heard}</p>
      </div>
      <div className={styles['line']}>
        <div className={styles['head']}>
          <p className={`pitch ${styles['way']}`}>
            <strong>{(pitches?.length ?? 0) - course}</strong> {pitchWords(pitches?.[course])}
          </p>
          <p className={styles['where']}>{where}</p>
          <p className="lead quiet">{sure}</p>
        </div>
        <Board course={course} look="active" toleranceCents={toleranceCents} beads={beads} />
        <CourseTail course={course} isActive />
      </div>
      <div className={styles['rest']}>
        <p className="lead">{rest}</p>
        <p className="quiet">{near}</p>
        <Button shortcut="O" onPress={onShow}>
          Show every course
        </Button>
      </div>
    </div>
  );
}

type TouchProps = { readonly touch: Touch; readonly isFirst: boolean; readonly isLast: boolean };

const TouchWords = ({ touch: { name, word, hue, amount }, isFirst, isLast }: TouchProps) => (
  <span className={styles['touch']}>
    {isFirst ? name.replace('c', 'C') : name}: <span className={hue === '' ? undefined : hue}>{word}</span>
    {amount === '' ? '' : ` ${amount}`}
    {isLast ? '' : ','}
  </span>
);
