import { useStore } from 'zustand';
import { retuning } from '../../stores/retuning.ts';
import { session } from '../../stores/session.ts';
import { type HeadWords, headWords, noHead, nothingHeard } from './head-words.ts';
import { noTail, tailWords } from './tail-words.ts';
import { troubleOf } from './trouble.ts';
import { useCalm } from './use-calm.ts';
import styles from './course-words.module.css';

type Props = { readonly course: number; readonly isActive: boolean };

/** The words of a course's headstock, changing no faster than they can be read. */
export function useHeadWords(course: number, isActive: boolean): HeadWords {
  const words = useCalm(retuning, ({ now }) => (now === null ? noHead : headWords(now, course)), `${course} ${isActive}`);
  const isDeaf = useStore(session, ({ snapshot }) => troubleOf(snapshot) !== null);
  const isBroken = isDeaf && isActive && words.command !== 'stop' && words.command !== 'paused';
  return isBroken ? { ...words, ...nothingHeard } : words;
}

/** What a course is to do: its number, from and to, and – for the one being worked on – the word to obey and how far. */
export function CourseHead({ course, isActive }: Props) {
  const words = useHeadWords(course, isActive);
  if (isActive) {
    return (
      <div className={styles['active']}>
        <p className={`pitch ${styles['way']}`}>
          <Way from={words.from} to={words.to} />
        </p>
        <p className={styles['command']}>
          {words.number} <span className={words.hue === '' ? undefined : words.hue}>{words.command}</span>
        </p>
        <p className={styles['cents']}>{words.cents}</p>
        <p className={`lead ${styles['amount']} ${words.isNews ? styles['news'] : 'quiet'}`}>{words.amount}</p>
      </div>
    );
  }
  return (
    <div className={styles['still']}>
      <span className={`pitch ${styles['number']}`}>{words.number}</span>
      <div className={styles['stillWords']}>
        <p className="pitch">
          <Way from={words.from} to={words.to} />
        </p>
        <p className="quiet">{words.plan}</p>
      </div>
    </div>
  );
}

/** From where to where; one pitch where a course stays. */
export const Way = ({ from, to }: { readonly from: string; readonly to: string }) =>
  from === to ? (
    to
  ) : (
    <>
      {from} <span className="faint">→</span> {to}
    </>
  );

/** What a course carries now and when wanted, and where it is. */
export function CourseTail({ course, isActive }: Props) {
  const words = useCalm(retuning, ({ now }) => (now === null ? noTail : tailWords(now, course)), `${course} ${isActive}`);
  if (!isActive) {
    const figures = words.pair === '' ? [words.pull, words.isThere ? '' : words.wanted] : [words.pair];
    return (
      <div className={styles['tail']}>
        <p className={words.isThere ? styles['there'] : 'quiet'}>{words.where}</p>
        <p className="small quiet">{figures.filter((part) => part !== '').join(', ')}</p>
      </div>
    );
  }
  return (
    <div className={styles['tailActive']}>
      {words.pair === '' ? (
        <>
          {words.pull === '' ? null : <p className="lead">{words.pull}</p>}
          <p className="quiet">{words.wanted}</p>
        </>
      ) : (
        <>
          <p className="lead">{words.pair}</p>
          <p className={`quiet ${styles['aim']}`}>{words.other}</p>
        </>
      )}
      {words.aim === '' ? null : (
        <>
          <p className={styles['aim']}>{words.aim}</p>
          <p className="small quiet">{words.because}</p>
        </>
      )}
      {words.fresh === '' ? null : <p className={styles['aim']}>{words.fresh}</p>}
      <p className={`small quiet ${styles['margins']}`}>{words.margins}</p>
    </div>
  );
}
