import { useNavigate } from '@tanstack/react-router';
import { useStore } from 'zustand';
import type { Settings } from '#shared/contract/index.ts';
import { courseNumber } from '#shared/instruments/index.ts';
import { outbox } from '../../stores/outbox.ts';
import { endRetune, retuning } from '../../stores/retuning.ts';
import { useVerdicts } from '../../stores/settling.ts';
import { Button } from '../../ui/button.tsx';
import { useKeys } from '../../ui/keys.ts';
import { clockTime } from '../../ui/time.ts';
import { centsText, count, courseText } from '../../ui/words.ts';
import { asSeen } from '../stack.ts';
import styles from './done-page.module.css';

/** What was reached per course, what to expect of it, and when to listen again. */
export function DonePage({ settings }: { readonly settings: Settings }) {
  const navigate = useNavigate();
  const now = useStore(retuning, (state) => state.now);
  const unsaved = useStore(outbox, ({ readings }) => readings.length);
  const verdicts = useVerdicts(now?.overview ?? null, settings.toleranceCents)?.verdicts;
  const goOn = () => {
    endRetune();
    void navigate({ to: '/settling', search: now === null ? {} : { on: now.overview.instrument.id } });
  };
  useKeys({ Enter: goOn, PageDown: goOn, Escape: goOn });
  if (now === null || now.finishedAt === null) return null;
  const checks = (verdicts ?? []).flatMap(({ assessment }) => (assessment.nextCheckSeconds === null ? [] : [assessment.nextCheckSeconds]));
  const minutes = Math.max(1, Math.round((now.finishedAt - now.startedAt) / 60_000));
  return (
    <div className={styles['page']}>
      <h1>
        {now.overview.instrument.name} is in {now.to.name}
      </h1>
      <p className="lead quiet">
        {count(minutes, 'minute')}, done at {clockTime(now.finishedAt)}.{' '}
        {checks.length === 0 ? '' : `Check again at about ${clockTime(Math.min(...checks) * 1000)}.`}
      </p>
      <ul className={styles['list']}>
        {asSeen([...now.to.pitches.entries()], now.overview.instrument).map(([course, pitches]) => {
          const last = now.reached.findLast((reading) => reading.course === course);
          const verdict = verdicts?.find((one) => one.course === course);
          return (
            <li key={course} className={styles['row']}>
              <span className={`pitch ${styles['number']}`}>{courseNumber(course, now.to.pitches.length)}</span>
              <span className="pitch">{courseText(pitches)}</span>
              <span>
                {last === undefined
                  ? 'left as it is'
                  : `${centsText(last.deviationCents, last.sigmaCents)} ${last.deviationCents < 0 ? 'below' : 'above'}`}
              </span>
              <span className="quiet">{verdict?.assessment.why ?? ''}</span>
            </li>
          );
        })}
      </ul>
      <p className="quiet">
        {unsaved > 0
          ? `${count(unsaved, 'reading')} still to be written down; Stillstring keeps trying.`
          : 'Every reading is in the log. After a large change fretted notes are worth a look: play the 12th fret against the open string.'}
      </p>
      <div className={styles['bottom']}>
        <Button look="solid" shortcut="Enter" onPress={goOn}>
          See how it settles
        </Button>
        <Button
          onPress={() => {
            endRetune();
            void navigate({ to: '/retune' });
          }}
        >
          Plan another
        </Button>
      </div>
    </div>
  );
}
