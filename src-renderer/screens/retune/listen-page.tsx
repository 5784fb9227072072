import { useEffect, useState } from 'react';
import { useStore } from 'zustand';
import type { Settings } from '#shared/contract/index.ts';
import { aloud } from '../../stores/aloud.ts';
import { retuning } from '../../stores/retuning.ts';
import { session } from '../../stores/session.ts';
import { Button } from '../../ui/button.tsx';
import { asSeen } from '../stack.ts';
import { Announcer } from './announcer.tsx';
import { CourseLine } from './course-line.tsx';
import { FarView } from './far-view.tsx';
import { AfterStrum, BeforeStrum, Choices, WhileDeaf } from './listen-choices.tsx';
import { progressWords } from './progress.ts';
import { StrumAsked, StrumOutcome } from './strum-page.tsx';
import { outcomeOf } from './strum-words.ts';
import { hintOf, troubleOf } from './trouble.ts';
import { useBeads } from './use-beads.ts';
import { useCalm } from './use-calm.ts';
import { useLed } from './use-led.ts';
import { useRefusal } from './use-refusal.ts';
import styles from './listen-page.module.css';

/** Led string by string: the course being worked on is large, the others are one quiet line each. */
export function ListenPage({ settings }: { readonly settings: Settings }) {
  const id = useStore(retuning, ({ now }) => now?.id ?? null);
  const active = useStore(retuning, ({ now }) => now?.advice.course ?? null);
  const isStopped = useStore(retuning, ({ now }) => now !== null && now.coach.stopped !== null);
  const to = useStore(retuning, ({ now }) => now?.to ?? null);
  const instrument = useStore(retuning, ({ now }) => now?.overview.instrument ?? null);
  const isStrumming = useStore(retuning, ({ now }) => now !== null && now.strum !== null);
  const isDeaf = useStore(session, ({ snapshot }) => troubleOf(snapshot) !== null);
  const [isFar, setFar] = useState(false);
  const [shownAt, setShownAt] = useState(0);
  const found = useCalm(retuning, ({ now }) => (now === null ? null : outcomeOf(now)), 'outcome');
  // What a strum told is past at once where another is asked for.
  const outcome = found !== null && found.atSeconds > shownAt && !isStrumming ? found : null;
  const showLines = () => setShownAt(outcome?.atSeconds ?? shownAt);
  const beads = useBeads(id);
  const steps = useLed({ isFar, onFar: setFar, onLines: outcome === null ? null : showLines });
  useEffect(() => aloud.setState({ knocks: settings.soundCues }), [settings.soundCues]);
  if (to === null || instrument === null) return null;

  return (
    <div className={styles['page']} data-courses={to.pitches.length > 4 ? 'many' : 'few'}>
      <Announcer />
      <h1 className="unseen">
        Retune {instrument.name} to {to.name}
      </h1>
      {isFar ? <FarView toleranceCents={settings.toleranceCents} beads={beads} onLeave={() => setFar(false)} /> : null}
      {isStrumming ? <StrumAsked /> : null}
      {outcome === null ? (
        <ul className={styles['lines']}>
          {asSeen([...to.pitches.keys()], instrument).map((course) => (
            <CourseLine key={course} course={course} isActive={course === active} toleranceCents={settings.toleranceCents} beads={beads} />
          ))}
        </ul>
      ) : (
        <StrumOutcome outcome={outcome} toleranceCents={settings.toleranceCents} beads={beads} onShow={showLines} />
      )}
      <div className={styles['bottom']}>
        {outcome === null ? <Progress /> : null}
        {outcome !== null && !isStopped ? (
          <AfterStrum outcome={outcome} steps={steps} />
        ) : isStopped ? (
          <Button look="solid" shortcut="Space" onPress={steps.pause}>
            It is loosened, go on
          </Button>
        ) : isDeaf ? (
          <WhileDeaf steps={steps} settings={settings} />
        ) : isStrumming ? (
          <BeforeStrum steps={steps} settings={settings} />
        ) : (
          <Choices steps={steps} settings={settings} />
        )}
      </div>
    </div>
  );
}

/** How far it is, or what keeps it from going on. */
function Progress() {
  const stopped = useStore(retuning, ({ now }) => now?.coach.stopped ?? null);
  const doubt = useStore(retuning, ({ now }) => now?.coach.doubt?.sentence ?? null);
  const progress = useCalm(retuning, ({ now }) => (now === null ? null : progressWords(now)), 'progress');
  const trouble = useStore(session, ({ snapshot }) => troubleOf(snapshot)?.sentence ?? null);
  const hint = useStore(session, ({ snapshot }) => hintOf(snapshot));
  const refusal = useRefusal();
  const urgent = trouble ?? stopped ?? doubt ?? hint ?? refusal;
  return (
    <p className={styles['progress']} data-urgent={urgent !== null}>
      {urgent ?? (
        <>
          <strong>{progress?.done}</strong> {progress?.next}
        </>
      )}
    </p>
  );
}
