import { useHost } from '../../stores/host.tsx';
import { endRetune, leaveTheRest, retuning, tell } from '../../stores/retuning.ts';
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
  /** One more strum of all strings, the plucks in place of one, and an end where the strum left it. */
  readonly strum: () => void;
  readonly pluck: () => void;
  readonly leave: () => void;
  readonly end: () => void;
};

type View = {
  readonly isFar: boolean;
  readonly onFar: (isFar: boolean) => void;
  /** Goes on from what a strum told to the lines of the courses; null where they are shown already. */
  readonly onLines: (() => void) | null;
};

/** The retune and the string that is being worked on; null where none is. */
function current() {
  const { now } = retuning.getState();
  return now === null || now.advice.course === null ? null : { now, course: now.advice.course, string: now.advice.string ?? 0 };
}

/** The steps of a player who is being led; keys and foot pedals (Page Down and Page Up) do the same as the buttons. */
export function useLed({ isFar, onFar, onLines }: View): Steps {
  const host = useHost();
  const steps: Steps = {
    pause: () => {
      const coach = retuning.getState().now?.coach;
      if (coach !== undefined) tell(host, { kind: coach.paused || coach.stopped !== null ? 'resume' : 'pause' });
    },
    skip: () => (onLines === null ? tell(host, { kind: 'skip' }) : onLines()),
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
    strum: () => tell(host, { kind: 'strum-again' }),
    pluck: () => tell(host, { kind: 'pluck-instead' }),
    leave: () => leaveTheRest(host),
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
    s: () => {
      const { now } = retuning.getState();
      if (now !== null && now.coach.strummed !== null && now.coach.phase === 'rechecking') steps.strum();
    },
    p: steps.pluck,
    o: () => onLines?.(),
    Escape: steps.end,
  });
  return steps;
}
