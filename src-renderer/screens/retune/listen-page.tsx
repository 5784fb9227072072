import { useState } from 'react';
import { useStore } from 'zustand';
import type { Settings } from '#shared/contract/index.ts';
import { courseNumber } from '#shared/instruments/index.ts';
import { useHost } from '../../stores/host.tsx';
import { endRetune, type Retuning, retuning, tell } from '../../stores/retuning.ts';
import { hearPitch, session } from '../../stores/session.ts';
import { Button } from '../../ui/button.tsx';
import { useKeys } from '../../ui/keys.ts';
import { TwoWay } from '../../ui/two-way.tsx';
import { count, courseText } from '../../ui/words.ts';
import { asSeen } from '../stack.ts';
import { CourseLine } from './course-line.tsx';
import { useBeads } from './use-beads.ts';
import styles from './listen-page.module.css';

const hints = {
  'too-quiet': 'Too quiet: pluck harder or come closer.',
  'too-loud': 'Too loud: the input is cut off. Turn it down or move away.',
} as const;

/** Led string by string: the course being worked on is large, the others are one quiet line each. */
export function ListenPage({ settings }: { readonly settings: Settings }) {
  const host = useHost();
  const id = useStore(retuning, ({ now }) => now?.id ?? null);
  const active = useStore(retuning, ({ now }) => now?.advice.course ?? null);
  const isPaused = useStore(retuning, ({ now }) => now?.coach.paused ?? false);
  const isFollowing = useStore(retuning, ({ now }) => now?.coach.following ?? false);
  const stopped = useStore(retuning, ({ now }) => now?.coach.stopped ?? null);
  const progress = useStore(retuning, ({ now }) => (now === null ? null : progressWords(now)));
  const trouble = useStore(session, ({ snapshot }) =>
    snapshot === null || snapshot.state.kind === 'open' || snapshot.state.kind === 'asking' ? null : snapshot.state,
  );
  const hint = useStore(session, ({ snapshot }) =>
    snapshot?.hearing === 'too-quiet' || snapshot?.hearing === 'too-loud' ? hints[snapshot.hearing] : (snapshot?.input?.advice[0] ?? null),
  );
  const [opened] = useState(() => retuning.getState().now);
  const beads = useBeads(id);
  const now = retuning.getState().now ?? opened;

  const pause = () => tell(host, settings, { kind: isPaused ? 'resume' : 'pause' });
  const next = () => tell(host, settings, { kind: 'skip' });
  const back = () => tell(host, settings, { kind: 'back' });
  const wanted = active === null ? undefined : now?.to.hertz[active]?.[0];
  const hear = () => {
    if (wanted !== undefined) hearPitch(wanted);
  };
  useKeys({ ' ': pause, PageDown: next, PageUp: back, ArrowRight: next, ArrowLeft: back, h: hear, Escape: endRetune });
  if (now === null) return null;

  const pitches = now.to.pitches;
  return (
    <div className={styles['page']} data-courses={pitches.length > 4 ? 'many' : 'few'}>
      <h1 className="unseen">
        Retune {now.overview.instrument.name} to {now.to.name}
      </h1>
      <ul className={styles['lines']}>
        {asSeen([...pitches.keys()], now.overview.instrument).map((course) => (
          <CourseLine key={course} course={course} isActive={course === active} toleranceCents={settings.toleranceCents} beads={beads} />
        ))}
      </ul>
      <div className={styles['bottom']}>
        <output className={styles['progress']}>{trouble === null ? (stopped ?? hint ?? progress) : trouble.sentence}</output>
        {trouble?.remedy === 'retry' ? <Button onPress={() => void session.getState().listening?.retry()}>Try again</Button> : null}
        {stopped === null ? null : <Button onPress={() => tell(host, settings, { kind: 'resume' })}>It is the right peg: go on</Button>}
        <TwoWay
          label="Which course is taken"
          value={isFollowing ? 'any' : 'asked'}
          options={[
            { value: 'asked', words: 'Course asked for' },
            { value: 'any', words: 'Any course' },
          ]}
          onChange={(value) => tell(host, settings, { kind: 'follow', on: value === 'any' })}
        />
        <Button shortcut="H" onPress={hear}>
          Hear {active === null ? 'it' : courseText(pitches[active] ?? [])}
        </Button>
        <Button look="solid" shortcut="Space" onPress={pause}>
          {isPaused ? 'Go on' : 'Pause'}
        </Button>
      </div>
    </div>
  );
}

/** `1 of 3 moved. Next course 1.` */
function progressWords({ coach, to }: Retuning): string {
  const places = to.pitches.length;
  const after = coach.queue.slice(1).map((place) => coach.strings[place]?.course ?? 0);
  const next = after[0];
  const then =
    next === undefined
      ? coach.phase === 'turning'
        ? 'Then each course once more.'
        : 'Then it is done.'
      : `Next course ${courseNumber(next, places)}.`;
  if (coach.phase === 'rechecking') return `${count(coach.queue.length, 'course')} to pluck once more. ${then}`;
  return `${coach.visited.length} of ${coach.visited.length + coach.queue.length} moved. ${then}`;
}
