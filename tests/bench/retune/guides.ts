// Who leads the player: the coach, or the player alone with a plain meter.
import { advise, type CoachState, type Effect, start, step, type Setup } from '#shared/guidance/index.ts';
import type { Asked, Guide, HeardFrame } from '#shared/simulation/player/index.ts';

/** The coach, told every frame as of the string that truly sounds. */
export function coachGuide(setup: Setup): Guide & { readonly effects: readonly Effect[]; readonly state: () => CoachState } {
  let state = start(setup);
  const effects: Effect[] = [];
  return {
    effects,
    state: () => state,
    hear: ({ place, ...frame }) => {
      const next = step(state, { kind: 'reading', course: place, string: 0, ...frame });
      state = next.state;
      effects.push(...next.effects);
    },
    ask: (): Asked => {
      const { course, action, centsToGo } = advise(state);
      if (course === null) return null;
      const isToTurn = action === 'tighten' || action === 'loosen' || (action === 'stop' && (centsToGo ?? 0) < 0);
      return { place: course, turnCents: isToTurn ? centsToGo : null };
    },
  };
}

const meterSeconds = 0.6;
const dampedFrames = 5;

/** A plain meter: string after string until each has shown within tolerance for 0.6 s; once, or until a whole pass needed no turn. */
export function meterGuide(wanted: readonly number[], present: readonly number[], toleranceCents: number, repeats: boolean): Guide {
  const toGo = (place: number, at: number) => 1200 * Math.log2((wanted[place] ?? at) / at);
  const all = wanted.map((_, place) => place);
  let queue = repeats ? all : all.filter((place) => Math.abs(toGo(place, present[place] ?? 0)) > toleranceCents);
  let off: number | null = null;
  let shown: readonly number[] = [];
  let insideSince: number | null = null;
  let wasTurned = false;
  let isPassTurned = false;
  const next = () => {
    isPassTurned ||= wasTurned;
    [off, insideSince, wasTurned, shown] = [null, null, false, []];
    queue = queue.slice(1);
    if (queue.length > 0 || !repeats || !isPassTurned) return;
    [queue, isPassTurned] = [all, false];
  };
  return {
    hear: ({ place, hertz, atSeconds, steady }: HeardFrame) => {
      if (place !== queue[0] || !steady) return;
      // Its needle is damped: it shows the middle of the last quarter of a second.
      shown = [...shown, toGo(place, hertz)].slice(-dampedFrames);
      off = shown.toSorted((a, b) => a - b)[Math.floor(shown.length / 2)] ?? 0;
      if (Math.abs(off) > toleranceCents) [insideSince, wasTurned] = [null, true];
      else insideSince ??= atSeconds;
      if (insideSince !== null && atSeconds - insideSince >= meterSeconds) next();
    },
    ask: (): Asked => {
      const [place] = queue;
      if (place === undefined) return null;
      return { place, turnCents: off === null || Math.abs(off) <= toleranceCents ? null : off };
    },
  };
}
