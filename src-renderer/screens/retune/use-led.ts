import { useHost } from '../../stores/host.tsx';
import { endRetune, retuning, tell } from '../../stores/retuning.ts';
import { hearPitch } from '../../stores/session.ts';
import { useKeys } from '../../ui/keys.ts';

/** What a player can do while being led, each on a key of its own. */
export type Steps = {
  /** Pauses; goes on after a pause, and after a caution. */
  readonly pause: () => void;
  readonly skip: () => void;
  readonly back: () => void;
  readonly hear: () => void;
  readonly restring: () => void;
  readonly follow: (isAny: boolean) => void;
  readonly far: () => void;
  readonly end: () => void;
};

type Far = { readonly isFar: boolean; readonly onFar: (isFar: boolean) => void };

/** The retune and the string that is being worked on; null where none is. */
function current() {
  const { now } = retuning.getState();
  return now === null || now.advice.course === null ? null : { now, course: now.advice.course, string: now.advice.string ?? 0 };
}

/** The steps of a player who is being led; keys and foot pedals (Page Down and Page Up) do the same as the buttons. */
export function useLed({ isFar, onFar }: Far): Steps {
  const host = useHost();
  const steps: Steps = {
    pause: () => {
      const coach = current()?.now.coach;
      if (coach !== undefined) tell(host, { kind: coach.paused || coach.stopped !== null ? 'resume' : 'pause' });
    },
    skip: () => tell(host, { kind: 'skip' }),
    back: () => tell(host, { kind: 'back' }),
    hear: () => {
      const here = current();
      const wanted = here?.now.to.hertz[here.course]?.[here.string];
      if (wanted !== undefined) hearPitch(wanted);
    },
    restring: () => {
      const here = current();
      if (here !== null) tell(host, { kind: 'restring', course: here.course, string: here.string });
    },
    follow: (isAny) => tell(host, { kind: 'follow', on: isAny }),
    far: () => onFar(!isFar),
    end: () => (isFar ? onFar(false) : endRetune()),
  };
  useKeys({
    ' ': steps.pause,
    PageDown: steps.skip,
    ArrowRight: steps.skip,
    PageUp: steps.back,
    ArrowLeft: steps.back,
    z: steps.back,
    h: steps.hear,
    r: steps.restring,
    a: () => steps.follow(!(retuning.getState().now?.coach.following ?? false)),
    f: steps.far,
    Escape: steps.end,
  });
  return steps;
}
