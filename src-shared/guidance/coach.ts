import { atCents, cents, centsBetween, hertz } from '#shared/units/index.ts';
import { advise, currentString } from './advice.ts';
import { reasonToStop } from './guard.ts';
import { emptyStretch, extend, landingSeconds, meanCents } from './landing.ts';
import { firstPass, nextPass } from './passes.ts';
import type { Advice, CoachEvent, CoachState, Effect, Setup, StringState } from './state.ts';

type Reading = Extract<CoachEvent, { kind: 'reading' }>;
type Stepped = { readonly state: CoachState; readonly effects: readonly Effect[] };

/** A peg turned by more than this may have drawn the other strings off, in cents. */
const touchCents = 25;
/** How far the glide of a hard pluck reaches at most on a small instrument, in cents. */
const glideCents = 15;
/** A change of pitch smaller than this within one visit is not taken for a turn of the peg, in cents. */
const leastTurnCents = 5;

/**
 * Begins a retune: plans the first pass from where the strings are to where they are wanted.
 * Throws RangeError where present and wanted do not name the same strings.
 */
export function start(setup: Setup): CoachState {
  const strings = setup.wanted.flatMap((course, index) =>
    course.map((aimHertz, string): StringState => {
      const presentHertz = setup.present[index]?.[string];
      if (presentHertz === undefined) throw new RangeError(`no present pitch for string ${string} of course ${index}`);
      return {
        course: index,
        string,
        aimHertz,
        presentHertz,
        sigmaCents: null,
        before: null,
        inside: emptyStretch,
        landedAtSeconds: null,
        skipped: false,
      };
    }),
  );
  const base: CoachState = {
    setup,
    phase: 'turning',
    paused: false,
    stopped: null,
    following: false,
    limitConfirmed: false,
    strings,
    queue: firstPass(strings, setup.toleranceCents),
    visited: [],
    lastTurn: null,
  };
  return base.queue.length > 0 ? base : beginNextPass(base).state;
}

/** Takes one event. Pure: the same state and event give the same answer, and effects are left to the caller. */
export function step(
  state: CoachState,
  event: CoachEvent,
): { readonly state: CoachState; readonly advice: Advice; readonly effects: readonly Effect[] } {
  const stepped = take(state, event);
  return { ...stepped, advice: advise(stepped.state) };
}

function take(state: CoachState, event: CoachEvent): Stepped {
  switch (event.kind) {
    case 'reading':
      return state.paused || state.phase === 'done' ? unchanged(state) : takeReading(state, event);
    case 'skip':
      return leave(withCurrent(state, { skipped: true, inside: emptyStretch }), []);
    case 'back':
      return unchanged(goBack(state));
    case 'pause':
      return unchanged({ ...state, paused: true });
    case 'resume':
      return unchanged({ ...state, paused: false, stopped: null });
    case 'confirm':
      return unchanged({ ...state, stopped: null, limitConfirmed: true });
    case 'follow':
      return unchanged({ ...state, following: event.on });
    case 'tick':
      return unchanged(state);
  }
}

const unchanged = (state: CoachState): Stepped => ({ state, effects: [] });

function takeReading(before: CoachState, reading: Reading): Stepped {
  const place = before.strings.findIndex(({ course, string }) => course === reading.course && string === reading.string);
  const state = before.following ? bringForward(before, place) : before;
  const heard = state.strings[place];
  if (heard === undefined) return unchanged(before);
  const { hertz: presentHertz, sigmaCents } = reading;
  if (state.queue[0] !== place) return unchanged(withString(state, place, { presentHertz }));

  const caution = state.limitConfirmed ? null : reasonToStop(state.setup, heard, presentHertz);
  if (caution !== null && state.stopped === null) {
    const effects: readonly Effect[] = [
      { kind: 'cue', cue: 'stop' },
      { kind: 'announce', sentence: caution },
    ];
    return { state: { ...withString(state, place, { presentHertz, sigmaCents, inside: emptyStretch }), stopped: caution }, effects };
  }
  const inside = extend(heard, reading, state.setup.toleranceCents);
  const next = withString({ ...state, stopped: caution }, place, {
    presentHertz,
    sigmaCents,
    inside,
    before: firstHeard(heard, reading),
  });
  return inside.seconds >= landingSeconds ? land(next, place, reading.atSeconds) : unchanged(next);
}

/** Where a visit found the string. A first frame in the glide of a hard pluck gives way to the first one that stands still, if that is near. */
function firstHeard({ before }: StringState, { hertz: now, steady }: Reading): StringState['before'] {
  if (before === null) return { hertz: now, steady };
  const isGlide = steady && !before.steady && Math.abs(centsBetween(hertz(now), hertz(before.hertz))) < glideCents;
  return isGlide ? { hertz: now, steady } : before;
}

/** The string is where it should be: what was reached is recorded, and the next one is asked for. */
function land(state: CoachState, place: number, atSeconds: number): Stepped {
  const landed = state.strings[place];
  if (landed === undefined) return unchanged(state);
  const { course, string, before, inside, aimHertz } = landed;
  const reached = atCents(hertz(aimHertz), cents(meanCents(inside)));
  const turnedCents = before === null ? 0 : centsBetween(reached, hertz(before.hertz));
  const effects: Effect[] = [];
  if (Math.abs(turnedCents) >= leastTurnCents)
    effects.push({ kind: 'turned', course, string, atSeconds: atSeconds - inside.seconds, cents: turnedCents });
  // Frames overlap, so their mean is not surer than the surest of them by the square root of their number: the last frame's sigma stands.
  effects.push(
    { kind: 'record', course, string, atSeconds, hertz: reached, sigmaCents: landed.sigmaCents ?? 0 },
    { kind: 'cue', cue: 'landed' },
  );
  const lastTurn = Math.abs(turnedCents) > touchCents ? { atSeconds, place } : state.lastTurn;
  return leave(withString({ ...state, lastTurn }, place, { presentHertz: reached, landedAtSeconds: atSeconds }), effects);
}

/** Goes on to the next string of this pass, or to the next pass. */
function leave(state: CoachState, effects: readonly Effect[]): Stepped {
  const [place, ...queue] = state.queue;
  if (place === undefined) return { state, effects };
  const visited = [...state.visited, place];
  const left = {
    ...withString(state, place, { inside: emptyStretch, before: null }),
    queue,
    visited,
    stopped: null,
    limitConfirmed: false,
  };
  if (queue.length > 0) return { state: left, effects };
  const next = beginNextPass(left);
  return { state: next.state, effects: [...effects, ...next.effects] };
}

function beginNextPass(state: CoachState): Stepped {
  const queue = nextPass(state);
  if (queue.length > 0) return unchanged({ ...state, phase: 'rechecking', queue });
  return { state: { ...state, phase: 'done', queue: [] }, effects: [{ kind: 'cue', cue: 'done' }] };
}

function goBack(state: CoachState): CoachState {
  const place = state.visited.at(-1);
  if (place === undefined) return state;
  const phase = state.phase === 'done' ? 'rechecking' : state.phase;
  const back = {
    ...state,
    phase,
    queue: [place, ...state.queue.filter((other) => other !== place)],
    visited: state.visited.slice(0, -1),
    stopped: null,
  };
  return withString(back, place, { skipped: false, landedAtSeconds: null, before: null, inside: emptyStretch });
}

/** Where any course may be plucked, the one that sounds becomes the current one, if it is still to be visited. */
function bringForward(state: CoachState, place: number): CoachState {
  if (!state.queue.includes(place) || state.queue[0] === place) return state;
  return { ...state, queue: [place, ...state.queue.filter((other) => other !== place)] };
}

const withString = (state: CoachState, place: number, change: Partial<StringState>): CoachState => ({
  ...state,
  strings: state.strings.map((string, index) => (index === place ? { ...string, ...change } : string)),
});

function withCurrent(state: CoachState, change: Partial<StringState>): CoachState {
  const [place] = state.queue;
  return place === undefined || currentString(state) === null ? state : withString(state, place, change);
}
