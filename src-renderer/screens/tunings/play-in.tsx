import { useEffect, useState } from 'react';
import { useStore } from 'zustand';
import type { Overview, Settings } from '#shared/contract/index.ts';
import { courseNumber, homePitches } from '#shared/instruments/index.ts';
import { wantedHertz } from '#shared/tunings/index.ts';
import { hertz } from '#shared/units/index.ts';
import { useLibrary } from '../../stores/library.ts';
import { beginPlayingIn, endPlayingIn, playAgain, playingIn, takeSame } from '../../stores/playing-in.ts';
import { type HeardCourse, type Played, playedPitches } from '../../stores/played.ts';
import { session } from '../../stores/session.ts';
import { soundFor } from '../../stores/sound-choice.ts';
import { Button } from '../../ui/button.tsx';
import { pitchText } from '../../ui/note-names.ts';
import { centsText } from '../../ui/words.ts';
import styles from './tuning-form.module.css';

type Props = {
  readonly overview: Overview;
  readonly settings: Settings;
  /** Called with every course, from the player's eye down, once all were heard. */
  readonly onHeard: (heard: readonly HeardCourse[]) => void;
};

/** Takes a tuning down from the instrument: each course is plucked once. */
export function PlayIn({ overview, settings, onHeard }: Props) {
  const { data: status } = useLibrary('library.status', {});
  const [problem, setProblem] = useState<string | null>(null);
  const played = useStore(playingIn, ({ now }) => now);
  const trouble = useStore(session, ({ snapshot }) =>
    snapshot === null || ['open', 'asking'].includes(snapshot.state.kind) ? null : snapshot.state.sentence,
  );
  useEffect(() => endPlayingIn, []);
  useEffect(() => {
    if (played === null || played.heard.length < played.courses) return;
    onHeard(played.heard);
    endPlayingIn();
  }, [played, onHeard]);
  const begin = () => {
    setProblem(null);
    const home = wantedHertz(homePitches(overview.stringSet), null, hertz(settings.referenceHertz));
    beginPlayingIn({ home, sound: soundFor(overview, settings, status), hasCues: settings.soundCues }).catch((fault: unknown) => {
      endPlayingIn();
      setProblem(fault instanceof Error ? fault.message : String(fault));
    });
  };
  if (played === null)
    return (
      <div className={styles['buttons']}>
        <Button onPress={begin}>Play it in</Button>
        <span className="small quiet">
          {problem ?? `Or pluck each open course of ${overview.instrument.name} once, as it is tuned now.`}
        </span>
      </div>
    );
  const next = courseNumber(played.heard.length, played.courses);
  const doubled = (overview.stringSet.courses[played.heard.length]?.strings.length ?? 1) > 1;
  return (
    <section className={styles['playing']} aria-label="Playing it in">
      <output className="lead">
        <strong>{trouble ?? `Pluck course ${next}`}</strong>
        {trouble === null ? `, ${place(played, overview.instrument)}${doubled ? ', its first string alone' : ''}. Let it ring.` : ''}
      </output>
      <ol className={styles['heard']}>
        {lines(played, settings.referenceHertz).map(({ number, pitch, detail }) => (
          <li key={number}>
            <span className="quiet">{number}</span> <span className="pitch">{pitch}</span> <span className="small quiet">{detail}</span>
          </li>
        ))}
      </ol>
      {played.repeated === null ? null : (
        <p>
          That sounded like course {next + 1} again. <Button onPress={takeSame}>It is course {next}</Button>
        </p>
      )}
      <div className={styles['buttons']}>
        {played.heard.length === 0 ? null : (
          <Button look="plain" onPress={playAgain}>
            Course {next + 1} once more
          </Button>
        )}
        <Button look="plain" onPress={endPlayingIn}>
          Stop listening
        </Button>
      </div>
    </section>
  );
}

/** Which of the courses it is, for somebody who does not number them. */
function place({ heard, courses }: Played, { upsideDown }: Overview['instrument']): string {
  if (heard.length > 0 && heard.length < courses - 1) return `the next one ${upsideDown ? 'up' : 'down'}`;
  return (heard.length === 0) === upsideDown ? 'the one nearest the floor' : 'the one nearest your eye';
}

/** What was heard so far, as pitches and how far off they are. */
function lines({ heard, courses }: Played, referenceHertz: number) {
  const { pitches, offsetCents } = playedPitches(heard, hertz(referenceHertz));
  return pitches.map((pitch, course) => {
    const cents = offsetCents[course] ?? 0;
    return {
      number: courseNumber(course, courses),
      pitch: pitchText(pitch),
      detail: cents === 0 ? '' : `${centsText(cents, heard[course]?.sigmaCents ?? 1)} ${cents < 0 ? 'below' : 'above'}`,
    };
  });
}
