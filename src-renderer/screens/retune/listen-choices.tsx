import { useStore } from 'zustand';
import type { Settings } from '#shared/contract/index.ts';
import { retuning } from '../../stores/retuning.ts';
import { session } from '../../stores/session.ts';
import { Button } from '../../ui/button.tsx';
import { TwoWay } from '../../ui/two-way.tsx';
import { ListenMenu } from './listen-menu.tsx';
import { pitchWords } from './sentences.ts';
import { type Outcome, touchButton } from './strum-words.ts';
import { troubleOf } from './trouble.ts';
import type { Steps } from './use-led.ts';
import styles from './listen-page.module.css';

/** What the player can choose meanwhile. A caution leaves none of it: there is one thing to do then. */
export function Choices({ steps, settings }: { readonly steps: Steps; readonly settings: Settings }) {
  const active = useStore(retuning, ({ now }) => now?.advice.course ?? null);
  const wanted = useStore(retuning, ({ now }) => now?.to.pitches[active ?? -1]);
  const isFollowing = useStore(retuning, ({ now }) => now?.coach.following ?? false);
  return (
    <>
      <div className={styles['choices']}>
        <TwoWay
          label="Which course is taken"
          value={isFollowing ? 'any' : 'asked'}
          options={[
            { value: 'asked', words: 'Course asked for' },
            { value: 'any', words: 'Any course' },
          ]}
          onChange={(value) => steps.follow(value === 'any')}
        />
        <ListenMenu steps={steps} settings={settings} />
      </div>
      <ToFarView steps={steps} />
      <Button shortcut="H" onPress={steps.hear}>
        Hear {wanted === undefined ? 'it' : pitchWords(wanted)}
      </Button>
      <PauseOrGoOn steps={steps} />
    </>
  );
}

const ToFarView = ({ steps }: { readonly steps: Steps }) => (
  <div className={styles['far']}>
    <Button look="plain" shortcut="F" onPress={steps.far}>
      Far view
    </Button>
  </div>
);

function PauseOrGoOn({ steps }: { readonly steps: Steps }) {
  const isPaused = useStore(retuning, ({ now }) => now?.coach.paused ?? false);
  return (
    <Button look="solid" shortcut="Space" onPress={steps.pause}>
      {isPaused ? 'Go on' : 'Pause'}
    </Button>
  );
}

/** What is left while nothing can be heard: to try again, where that helps. */
export function WhileDeaf({ steps, settings }: { readonly steps: Steps; readonly settings: Settings }) {
  const canRetry = useStore(session, ({ snapshot }) => troubleOf(snapshot)?.canRetry ?? false);
  return (
    <>
      <div className={styles['choices']}>
        <ListenMenu steps={steps} settings={settings} />
      </div>
      {canRetry ? (
        <Button look="solid" onPress={() => void session.getState().listening?.retry()}>
          Try again
        </Button>
      ) : null}
    </>
  );
}

/** What can be chosen while a strum is waited for: it can always be done without. */
export function BeforeStrum({ steps, settings }: { readonly steps: Steps; readonly settings: Settings }) {
  return (
    <>
      <div className={styles['choices']}>
        <ListenMenu steps={steps} settings={settings} />
      </div>
      <ToFarView steps={steps} />
      <Button look="plain" shortcut="Page Down" onPress={steps.skip}>
        Leave it as it is
      </Button>
      <Button shortcut="P" onPress={steps.pluck}>
        Pluck them instead
      </Button>
      <PauseOrGoOn steps={steps} />
    </>
  );
}

/** What can be chosen after a strum: the course that it named, another strum, or an end. */
export function AfterStrum({ outcome, steps }: { readonly outcome: Outcome; readonly steps: Steps }) {
  const [first] = outcome.touches;
  return (
    <>
      <Button look="solid" shortcut="Page Down" onPress={steps.skip}>
        {first === undefined ? 'Go on' : touchButton(first)}
      </Button>
      <Button shortcut="S" onPress={steps.strum}>
        Strum again
      </Button>
      <Button look="plain" onPress={steps.leave}>
        Leave it as it is
      </Button>
      <div className={styles['last']}>
        <Button look="plain" shortcut="Z" onPress={steps.back}>
          Undo last step
        </Button>
      </div>
    </>
  );
}
