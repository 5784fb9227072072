import { useNavigate } from '@tanstack/react-router';
import { useEffect, useRef, useState } from 'react';
import { useStore } from 'zustand';
import type { Settings } from '#shared/contract/index.ts';
import { courseNumber } from '#shared/instruments/index.ts';
import { useLibrary } from '../../stores/library.ts';
import { outbox } from '../../stores/outbox.ts';
import { retuneEnd } from '../../stores/retune-end.ts';
import { endRetune, type Retuning, retuning } from '../../stores/retuning.ts';
import { useVerdicts } from '../../stores/settling.ts';
import { Button } from '../../ui/button.tsx';
import { useKeys } from '../../ui/keys.ts';
import { clockTime } from '../../ui/time.ts';
import { count } from '../../ui/words.ts';
import { asSeen } from '../stack.ts';
import { againWords, bigChangeCents, doneTitle, expectWords, reachedWords } from './done-words.ts';
import { FretPage } from './fret-page.tsx';
import { NewStrings } from './new-strings.tsx';
import { pitchWords } from './sentences.ts';
import styles from './done-page.module.css';

/** Whether the player has left a course as it was. */
const isLeft = ({ coach }: Retuning, course: number): boolean => coach.strings.some((one) => one.course === course && one.skipped);

/** What was reached per course, what to expect of it, and when to listen again. */
export function DonePage({ settings }: { readonly settings: Settings }) {
  const navigate = useNavigate();
  const now = useStore(retuning, (state) => state.now);
  const unsaved = useStore(outbox, ({ readings }) => readings.length);
  // The instrument as the library has it now: in its new tuning, once the host has written that down.
  const { data: overviews } = useLibrary('overview.read', {});
  const written = overviews?.find(({ lastRetune }) => lastRetune !== null && lastRetune.id === now?.id && lastRetune.finishedAt !== null);
  const verdicts = useVerdicts(written ?? null, settings.toleranceCents)?.verdicts;
  const [isFretting, setFretting] = useState(false);
  const title = useRef<HTMLHeadingElement>(null);
  // A screen reader reads the title: the retune is over.
  useEffect(() => title.current?.focus(), []);
  // Whoever goes elsewhere has seen that the retune is done.
  useEffect(
    () => () => {
      if (typeof retuning.getState().now?.finishedAt === 'number') endRetune();
    },
    [],
  );
  const goOn = () => {
    void navigate({ to: '/settling', search: now === null ? {} : { on: now.overview.instrument.id } });
  };
  useKeys(isFretting ? {} : { Enter: goOn, PageDown: goOn, Escape: goOn, f: () => setFretting(true) });
  if (now === null || now.finishedAt === null) return null;
  if (isFretting) {
    const present = now.to.hertz.map((strings, course) =>
      strings.map(
        (hertz, string) => now.coach.strings.find((one) => one.course === course && one.string === string)?.presentHertz ?? hertz,
      ),
    );
    return <FretPage overview={now.overview} present={present} settings={settings} onLeave={() => setFretting(false)} />;
  }
  const finished = now.finishedAt / 1000;
  const minutes = Math.max(1, Math.round((now.finishedAt - now.startedAt) / 60_000));
  const end = retuneEnd(now);
  const { left } = end;
  const isBig = now.coach.strings.some(({ moves }) => moves.some(({ cents }) => Math.abs(cents) >= bigChangeCents));
  return (
    <div className={styles['page']}>
      <h1 ref={title} tabIndex={-1}>
        {doneTitle(now.overview.instrument.name, end)}
      </h1>
      <p className="lead quiet">
        {count(minutes, 'minute')}, done at {clockTime(now.finishedAt)}.{' '}
        <span className={styles['again']}>
          {againWords(
            (verdicts ?? []).flatMap(({ course, assessment }) => (left.includes(course) ? [] : [assessment])),
            finished,
            left.length === 0,
          )}
        </span>
      </p>
      {now.reached.length === 0 ? null : (
        <div className={`small faint ${styles['row']} ${styles['labels']}`} aria-hidden="true">
          <span />
          <span />
          <span>from its pitch</span>
          <span>expected</span>
        </div>
      )}
      <ul className={styles['list']}>
        {asSeen([...now.to.pitches.entries()], now.overview.instrument).map(([course, pitches]) => {
          const last = now.reached.findLast((reading) => reading.course === course);
          const assessment = left.includes(course) ? undefined : verdicts?.find((one) => one.course === course)?.assessment;
          return (
            <li key={course} className={styles['row']}>
              <span className={`pitch ${styles['number']}`}>{courseNumber(course, now.to.pitches.length)}</span>
              <span className="pitch">{pitchWords(pitches)}</span>
              <span>{reachedWords(last, isLeft(now, course))}</span>
              <span>{assessment === undefined ? '' : expectWords(assessment, finished, now.untilSeconds)}</span>
              <span className="quiet">{assessment?.why ?? ''}</span>
            </li>
          );
        })}
      </ul>
      <p className="quiet">
        {unsaved > 0
          ? `${count(unsaved, 'reading')} still to be written down; Stillstring keeps trying.`
          : `Every reading is in the log.${isBig ? ' After a change as large as this, fretted notes are worth a look.' : ''}`}
      </p>
      <NewStrings retune={now} />
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
        {isBig ? (
          <Button shortcut="F" onPress={() => setFretting(true)}>
            Check the 12th fret
          </Button>
        ) : null}
      </div>
    </div>
  );
}
