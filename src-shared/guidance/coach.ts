import { atCents, cents, centsBetween, hertz } from '#shared/units/index.ts';
import { advise, currentString } from './advice.ts';
import { withAims } from './aims.ts';
import { reasonToStop } from './guard.ts';
import { extend, hasLanded, reachedBy, secondsInside, type Sounding, unheard } from './landing.ts';
import { learn, type Lessons } from './learned.ts';
import { firstPass, isUntouched, nextPass } from './passes.ts';
import { restrung } from './restring.ts';
import { expectedOffset, fromLogSigmaCents, learnShift, pullAtOthers, standAt, stringAt } from './standing.ts';
import type { Setup } from './setup.ts';
import type { Advice, CoachEvent, CoachState, Effect, StringState, StrumVerdict } from './state.ts';
import { judgeStrum, strumSentence, weigh } from './strum.ts';
import { isToGoBelow, withUndershoot } from './undershoot.ts';
import { heardIn, notChanging } from './visit.ts';

type Reading = Extract<CoachEvent, { kind: 'reading' }>;
type Stepped = { readonly state: CoachState; readonly effects: readonly Effect[] };

/** A change of pitch smaller than this within one visit is not taken for a turn of the peg, in cents; nor logged as one within so many sigmas. */
const restCents = 1;
const surelyTurnedSigmas = 3;
/** Another course that sounds so far from where it should be has had its peg turned, in cents. */
const otherPegCents = 12;

/**
 * Begins a retune: plans the first pass from where the strings are to where they are wanted. What was learned from earlier retunes may be handed in, from
 * `learn`, where several retunes of one string set are planned; it is learned here where left out.
 * Throws RangeError where present, wanted and the lessons do not name the same strings.
 */
export function start(setup: Setup, { coupling, drifts }: Lessons = learn(setup)): CoachState {
  const places = setup.wanted.flatMap((course, index) => course.map((wantedHertz, string) => ({ course: index, string, wantedHertz })));
  const strings = places.map((place, index): StringState => {
    const presentHertz = setup.present[place.course]?.[place.string];
    const drift = drifts[index];
    if (presentHertz === undefined) throw new RangeError(`no present pitch for string ${place.string} of course ${place.course}`);
    if (drift === undefined) throw new RangeError(`nothing learned of place ${index}: lessons are of ${drifts.length} strings`);
    return {
      ...place,
      aimHertz: place.wantedHertz,
      leadCents: 0,
      couplingCents: 0,
      pulls: [],
      presentHertz,
      standing: standAt({ hertz: presentHertz, sigmaCents: fromLogSigmaCents, atSeconds: setup.atSeconds }, places.length),
      visit: null,
      sigmaCents: null,
      ...unheard,
      landedAtSeconds: null,
      skipped: false,
      landings: 0,
      moves: [],
      drift,
    };
  });
  const base: CoachState = {
    setup,
    phase: 'turning',
    nowSeconds: setup.atSeconds,
    paused: false,
    stopped: null,
    following: false,
    limitConfirmed: false,
    strings,
    queue: [],
    visited: [],
    sound: null,
    doubt: null,
    strummed: null,
    turnedSinceStrum: true,
    coupling,
  };
  const planned = withAims({ ...base, queue: firstPass(withAims(base).strings, setup.toleranceCents) });
  return planned.queue.length > 0 ? planned : beginNextPass(planned).state;
}

/** Takes one event. Pure: the same state and event give the same answer, and effects are left to the caller. */
export function step(
  state: CoachState,
  event: CoachEvent,
): { readonly state: CoachState; readonly advice: Advice; readonly effects: readonly Effect[] } {
  const doubt = event.kind === 'tick' ? state.doubt : null;
  const stepped = take({ ...state, doubt, nowSeconds: Math.max(state.nowSeconds, event.atSeconds) }, event);
  return { ...stepped, advice: advise(stepped.state) };
}

function take(state: CoachState, event: CoachEvent): Stepped {
  switch (event.kind) {
    case 'reading':
      return state.paused || state.phase === 'done' || state.phase === 'strumming' ? unchanged(state) : takeReading(state, event);
    case 'strum':
      return state.paused || state.phase !== 'strumming' ? unchanged(state) : takeStrum(state, event);
    case 'skip':
      if (state.phase === 'strumming') return finish(state);
      return leave(withCurrent(state, { skipped: true, ...unheard }), []);
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
    case 'strum-again':
      return unchanged(strumAgain(state));
    case 'pluck-instead':
      return state.phase === 'strumming' ? takeStrum(state, { ...event, courses: [] }) : unchanged(state);
    case 'strum-check': {
      const changed: CoachState = { ...state, setup: { ...state.setup, strumCheck: event.on } };
      return event.on || state.phase !== 'strumming' ? unchanged(changed) : takeStrum(changed, { ...event, courses: [] });
    }
    case 'restring':
      return unchanged(withAims(restrung(state, event)));
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
  const { toleranceCents } = state.setup;
  const isCurrent = state.queue[0] === place;
  const caution = isCurrent && state.limitConfirmed ? null : reasonToStop(state.setup, heard, presentHertz);
  if (caution !== null && (state.stopped === null || !isCurrent)) {
    const stopped = withString(withFirst(state, place), place, { presentHertz, sigmaCents, ...unheard });
    return { state: { ...stopped, stopped: caution, limitConfirmed: false }, effects: [{ kind: 'cue', cue: 'stop' }, announce(caution)] };
  }
  if (!isCurrent) return hearAnother(state, place, reading);
  const visit = heardIn(heard, reading, courseNumber(state, heard.course), toleranceCents);
  const sounding = extend(heard.sounding, reading, heard.aimHertz, toleranceCents);
  const moved = withUndershoot(state.setup, {
    ...heard,
    presentHertz,
    sigmaCents,
    sounding,
    inside: { seconds: secondsInside(sounding) },
    visit,
  });
  const next = withString({ ...state, stopped: caution }, place, moved);
  if (hasLanded(sounding) && !isToGoBelow(state.setup, moved)) return land(next, place, reading.atSeconds, sounding);
  const isNews = visit.notice !== null && visit.notice !== heard.visit?.notice;
  return { state: next, effects: isNews ? [announce(visit.notice)] : [] };
}

const announce = (sentence: string): Effect => ({ kind: 'announce', sentence });

/** The number by which a player calls a course: 1 is nearest the floor. */
const courseNumber = ({ setup }: CoachState, course: number): number => setup.wanted.length - course;

/** A course sounds that was not asked for. If its peg has been turned in place of the right one, that is said, and it will be visited again. */
function hearAnother(state: CoachState, place: number, { atSeconds, hertz: presentHertz, sigmaCents, steady }: Reading): Stepped {
  const heard = withString(state, place, { presentHertz });
  const { cents: expected, variance } = expectedOffset(state, place, atSeconds);
  const off = centsBetween(hertz(presentHertz), hertz(stringAt(state.strings, place).wantedHertz)) - expected;
  const current = currentString(state);
  if (!steady || current === null || current.visit === null || Math.abs(off) < otherPegCents + 3 * Math.sqrt(variance))
    return unchanged(heard);
  const notice = notChanging(courseNumber(state, current.course));
  const standing = standAt({ hertz: presentHertz, sigmaCents, atSeconds }, state.strings.length);
  const turned = withString(heard, place, { standing, landedAtSeconds: null });
  const next = withCurrent(turned, { visit: { ...current.visit, notice } });
  return { state: next, effects: current.visit.notice === notice ? [] : [announce(notice)] };
}

/** The string is where it should be: what was reached is recorded, and the next one is asked for. */
function land(state: CoachState, place: number, atSeconds: number, sounding: Sounding): Stepped {
  const { course, string, visit, moves, landings } = stringAt(state.strings, place);
  const reached = { atSeconds, ...reachedBy(sounding) };
  const before = visit?.before ?? { ...reached, steady: true };
  const turnedCents = centsBetween(hertz(reached.hertz), hertz(before.hertz));
  const isTurned = Math.abs(turnedCents) >= restCents;
  const effects: Effect[] = [];
  const turnedAt = sounding.stillSinceSeconds;
  const isSurely = Math.abs(turnedCents) > surelyTurnedSigmas * Math.hypot(before.sigmaCents, reached.sigmaCents);
  if (isTurned && isSurely) effects.push({ kind: 'turned', course, string, atSeconds: turnedAt, cents: turnedCents });
  effects.push({ kind: 'record', course, string, ...reached }, { kind: 'cue', cue: 'landed' });
  const wiser = learnShift(state, place, isTurned ? before : reached);
  const landed = withString(wiser, place, {
    presentHertz: reached.hertz,
    landedAtSeconds: atSeconds,
    landings: landings + 1,
    moves: isTurned ? [...moves, { atSeconds: turnedAt, cents: turnedCents }] : moves,
    standing: standAt(reached, state.strings.length),
  });
  if (!isTurned) return leave(landed, effects);
  return leave({ ...pullAtOthers(landed, place, before.hertz, reached.hertz), turnedSinceStrum: true }, effects);
}

/** Goes on to the next string of this pass, or to the next pass. */
function leave(state: CoachState, effects: readonly Effect[]): Stepped {
  const [place, ...queue] = state.queue;
  if (place === undefined) return { state, effects };
  const visited = [...state.visited, place];
  const left = {
    ...withString(state, place, { ...unheard, visit: null }),
    queue,
    visited,
    stopped: null,
    limitConfirmed: false,
  };
  if (queue.length > 0) return { state: withAims(left), effects };
  const next = beginNextPass(left);
  return { state: next.state, effects: [...effects, ...next.effects] };
}

function beginNextPass(state: CoachState): Stepped {
  const queue = nextPass(state);
  if (isToStrum(state)) return unchanged(withAims({ ...state, phase: 'strumming', queue: [] }));
  if (queue.length > 0) return unchanged(withAims({ ...state, phase: 'rechecking', queue }));
  return finish(state);
}

const finish = (state: CoachState): Stepped => ({ state: { ...state, phase: 'done', queue: [] }, effects: [{ kind: 'cue', cue: 'done' }] });

/** So many strums settle it, or none will. */
const mostStrums = 3;

/** A strum takes the place of plucking every course again, but never of the first visit to a string that has to be turned. */
const isToStrum = ({ setup, strummed, turnedSinceStrum }: CoachState): boolean =>
  setup.strumCheck === true && turnedSinceStrum && (strummed === null || (strummed.verdicts !== null && strummed.count < mostStrums));

/** All courses are to be strummed once more; not while a string is to be loosened first. */
function strumAgain(state: CoachState): CoachState {
  if (state.phase === 'done' || state.stopped !== null) return state;
  const left = withCurrent(state, { ...unheard, visit: null, ...halfTurned(currentString(state)) });
  return withAims({ ...left, phase: 'strumming', queue: [], sound: null });
}

/** The string under way may have been turned since it was last trusted: it stands about where it was heard. */
function halfTurned(current: StringState | null): Partial<StringState> {
  if (current === null || current.visit === null) return {};
  const { standing, presentHertz } = current;
  return { standing: { ...standing, hertz: presentHertz, sigmaCents: halfTurnedCents } };
}
/** How far a string under way may be from where it was heard last, as a sigma in cents. */
const halfTurnedCents = 50;

/** Every string that the strum told is known anew; those to turn, and those that it could not tell and that may have been drawn off, are visited. */
function takeStrum(
  state: CoachState,
  { atSeconds, courses }: Pick<Extract<CoachEvent, { kind: 'strum' }>, 'atSeconds' | 'courses'>,
): Stepped {
  const count = (state.strummed?.count ?? 0) + 1;
  const verdicts = judgeStrum(state, courses);
  let heard = withUntold({ ...state, sound: null, turnedSinceStrum: false }, verdicts);
  if (verdicts.every(({ reason }) => reason === 'unheard')) {
    const sentence = 'The strum could not be read: pluck the courses one by one.';
    const next = beginNextPass({ ...heard, strummed: { atSeconds, count, verdicts: null, sentence } });
    return { state: next.state, effects: [announce(sentence), ...next.effects] };
  }
  const records: Effect[] = [];
  for (const [place, { course, string, kind, hertz: presentHertz, sigmaCents, reason }] of verdicts.entries()) {
    if (presentHertz === null || sigmaCents === null || isUntold({ kind, reason })) continue;
    const reading = { atSeconds, hertz: presentHertz, sigmaCents };
    const weighed = weigh(state, place, reading);
    const stands = atCents(hertz(stringAt(state.strings, place).wantedHertz), cents(weighed.cents));
    const standing = standAt({ hertz: stands, sigmaCents: weighed.sigmaCents, atSeconds }, state.strings.length);
    heard = withString(learnShift(heard, place, reading), place, {
      presentHertz: stands,
      standing,
      landedAtSeconds: kind === 'leave' ? atSeconds : null,
    });
    if (reason !== 'alike') records.push({ kind: 'record', course, string, ...reading, source: 'strum' });
  }
  const next = beginNextPass(heard);
  const sentence = strumSentence(state, verdicts, next.state.queue);
  const cue: Effect[] = next.state.phase === 'done' ? [{ kind: 'cue', cue: 'landed' }] : [];
  return {
    state: { ...next.state, strummed: { atSeconds, count, verdicts, sentence } },
    effects: [...records, ...cue, announce(sentence), ...next.effects],
  };
}

const isUntold = ({ kind, reason }: Pick<StrumVerdict, 'kind' | 'reason'>): boolean => kind === 'pluck' && reason !== 'unsure';

/** What the strum did not tell is not taken for being in its place, unless it was heard there after the last turn of another peg. */
const withUntold = (state: CoachState, verdicts: readonly StrumVerdict[]): CoachState => ({
  ...state,
  strings: state.strings.map((one, place) => {
    const verdict = verdicts[place];
    return verdict === undefined || !isUntold(verdict) || isUntouched(one) ? one : { ...one, landedAtSeconds: null };
  }),
});

function goBack(state: CoachState): CoachState {
  const place = state.visited.at(-1);
  if (place === undefined) return state;
  const back: CoachState = {
    ...withFirst(state, place),
    phase: state.phase === 'turning' ? 'turning' : 'rechecking',
    visited: state.visited.slice(0, -1),
    stopped: null,
  };
  return withAims(withString(back, place, { skipped: false, landedAtSeconds: null, landings: 0, visit: null, ...unheard }));
}

/** Where any course may be plucked, the one that sounds becomes the current one, if it is still to be visited. */
function bringForward(state: CoachState, place: number): CoachState {
  if (!state.queue.includes(place) || state.queue[0] === place) return state;
  return withAims(withFirst(state, place));
}

/** The string that is to be seen to now; the one that was under way is plucked anew when its turn comes again. */
function withFirst(state: CoachState, place: number): CoachState {
  if (state.queue[0] === place) return state;
  return { ...withCurrent(state, unheard), queue: [place, ...state.queue.filter((other) => other !== place)] };
}

const withString = (state: CoachState, place: number, change: Partial<StringState>): CoachState => ({
  ...state,
  strings: state.strings.map((string, index) => (index === place ? { ...string, ...change } : string)),
});

function withCurrent(state: CoachState, change: Partial<StringState>): CoachState {
  const [place] = state.queue;
  return place === undefined || currentString(state) === null ? state : withString(state, place, change);
}
