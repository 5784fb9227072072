import { useStore } from 'zustand';
import { retuning } from '../../stores/retuning.ts';
import { session } from '../../stores/session.ts';
import { useAlone } from '../../ui/alone.ts';
import { Button } from '../../ui/button.tsx';
import { Board } from './board.tsx';
import { useHeadWords, Way } from './course-words.tsx';
import { thenWords } from './sentences.ts';
import { strumAsked } from './strum-words.ts';
import { hintOf, troubleOf } from './trouble.ts';
import { useCalm } from './use-calm.ts';
import { useRefusal } from './use-refusal.ts';
import type { Beads } from './use-beads.ts';
import styles from './far-view.module.css';

type Props = { readonly toleranceCents: number; readonly beads: Beads; readonly onLeave: () => void };

/** Only what must be read from two metres: the word to obey, how far, the string, and what comes next. Escape or F leaves it. */
export function FarView({ toleranceCents, beads, onLeave }: Props) {
  const view = useAlone<HTMLDivElement>();
  const course = useStore(retuning, ({ now }) => now?.advice.course ?? 0);
  const trouble = useStore(session, ({ snapshot }) => troubleOf(snapshot)?.sentence ?? hintOf(snapshot));
  const strum = useCalm(retuning, ({ now }) => (now?.advice.action === 'strum' ? strumAsked(now) : null), 'strum');
  return (
    <div ref={view} className={styles['far']}>
      {strum === null ? (
        <Led beads={beads} course={course} toleranceCents={toleranceCents} trouble={trouble} />
      ) : (
        <div className={styles['strum']}>
          <p className={styles['command']}>{strum.word}</p>
          <p className={styles['then']}>{trouble ?? strum.how}</p>
        </div>
      )}
      <div className={styles['leave']}>
        <Button look="plain" shortcut="Esc" onPress={onLeave}>
          Leave the far view
        </Button>
      </div>
    </div>
  );
}

type LedProps = Pick<Props, 'toleranceCents' | 'beads'> & { readonly course: number; readonly trouble: string | null };

/** The course being worked on. */
function Led({ course, toleranceCents, beads, trouble }: LedProps) {
  const then = useCalm(retuning, ({ now }) => (now === null ? '' : thenWords(now)), 'then');
  const stopped = useStore(retuning, ({ now }) => now?.coach.stopped ?? null);
  const doubt = useStore(retuning, ({ now }) => now?.coach.doubt?.sentence ?? null);
  const words = useHeadWords(course, true);
  const refusal = useRefusal();
  const sentence = trouble ?? stopped ?? doubt ?? refusal;
  return (
    <>
      <div className={styles['top']}>
        <p className={styles['way']}>
          <Way from={words.from} to={words.to} />
        </p>
        {sentence === null ? <p className={styles['then']}>{then}</p> : null}
      </div>
      {sentence === null ? null : <p className={styles['sentence']}>{sentence}</p>}
      <div className={styles['board']}>
        <Board course={course} look="far" toleranceCents={toleranceCents} beads={beads} />
      </div>
      <div className={styles['bottom']}>
        <p className={styles['command']}>
          {words.number} <span className={words.hue === '' ? undefined : words.hue}>{words.command}</span>
        </p>
        <div className={styles['figures']}>
          <p className={styles['cents']} data-words={!/\d/u.test(words.cents)}>
            {words.cents}
          </p>
          <p className={words.isNews ? styles['news'] : styles['amount']}>{words.amount}</p>
        </div>
      </div>
    </>
  );
}
