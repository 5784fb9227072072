import {
  type HeardPitch,
  isNewPluck,
  matchAs,
  matchFrame,
  type Match,
  type MatchContext,
  readCourse,
  type Strings,
  surelyMatched,
} from '#shared/matching/index.ts';
import { centsBetween, hertz } from '#shared/units/index.ts';
import { advise, currentString } from './advice.ts';
import { step } from './coach.ts';
import { doubtOf, isFarBelow, isFretted, isInPlaceOfAsked, isSecondPluck, stringMeant } from './doubt.ts';
import { overloadOf } from './guard.ts';
import { stillOfBefore } from './haste.ts';
import { unheard } from './landing.ts';
import { isOfStrum, isSameSound, ringsOver, soundOf } from './rings.ts';
import { stringNamed } from './standing.ts';
import type { Advice, CoachState, Effect, Sound, StringState } from './state.ts';

/** A live pitch, as the tracker gives it; `others` are further strings of the same course. */
type Frame = HeardPitch & {
  readonly atSeconds: number;
  readonly steady: boolean;
  readonly sincePluckSeconds?: number | null;
  readonly others?: readonly HeardPitch[];
};

/** What the coach made of one frame, and which course it was taken for. */
export type Heard = { readonly state: CoachState; readonly match: Match; readonly advice: Advice; readonly effects: readonly Effect[] };

/**
 * Takes one frame: finds the course that sounds, and lets the coach step if one surely does. A sound stays one string's until the next pluck.
 * Where it is in doubt whose a new sound is, the coach asks for one course by name and believes the second pluck, or its peg; a frame that cannot be
 * told apart changes nothing. `hear(state, { atSeconds: 3, hertz: 262, sigmaCents: 0.2, steady: true, sincePluckSeconds: 0.4 })`.
 */
export function hear(state: CoachState, frame: Frame): Heard {
  const { doubt, sound } = state;
  if (doubt !== null && isSameSound(doubt.sound, frame))
    return inDoubt({ ...state, doubt: { ...doubt, sound: soundOf(frame, doubt.sound) } }, frame, []);
  const goesOn = sound !== null && isSameSound(sound, frame) ? sound : stillOfBefore(state, frame);
  if (goesOn === null && (isOfStrum(state, frame) || ringsOver(state, frame))) return inDoubt(state, frame, []);
  const match = matchOf(state, frame, goesOn);
  if (match.kind === 'unknown') return askByName(state, frame, match);
  const isLikely = match.certainty >= surelyMatched && !isInPlaceOfAsked(state, match) && !isFretted(state, frame, match);
  const isSure = goesOn !== null || isLikely || isSecondPluck(state, frame, match.course) || isDangerous(state, frame, match);
  if (!isSure) return askByName(state, frame, match);
  const own = pitchOf(state, frame, match);
  const { course, string } = match;
  const { atSeconds, steady } = frame;
  const stepped = step({ ...state, sound: soundOf(frame, match) }, { ...own, atSeconds, steady, kind: 'reading', course, string });
  const next = isElsewhere(state, frame, match) ? outOfHearing(stepped.state) : stepped.state;
  return { state: next, match, advice: advise(next), effects: stepped.effects };
}

/** Whether another course was plucked since the one under way was heard last. */
function isElsewhere(state: CoachState, frame: Frame, { course }: Extract<Match, { kind: 'match' }>): boolean {
  const current = currentString(state);
  const last = current?.sounding?.frames.at(-1);
  if (last === undefined || state.following || course === current?.course || !frame.steady) return false;
  return isNewPluck({ atSeconds: last.atSeconds, pluckedAtSeconds: null }, frame);
}

/** The string under way may have been turned in silence meanwhile: it is to be plucked before its peg goes on. */
function outOfHearing(state: CoachState): CoachState {
  const current = currentString(state);
  return { ...state, strings: state.strings.map((one) => (one === current ? { ...one, ...unheard } : one)) };
}

/** Where several could be meant, or the one asked for may not be it, one course is asked for by name. */
function askByName(state: CoachState, frame: Frame, match: Match): Heard {
  const doubt = doubtOf(state, frame, match);
  if (doubt === null || state.paused || state.phase === 'done' || state.phase === 'strumming')
    return { state, match, advice: advise(state), effects: [] };
  const isNews = state.doubt?.sentence !== doubt.sentence;
  return inDoubt({ ...state, doubt }, frame, isNews ? [{ kind: 'announce', sentence: doubt.sentence }] : []);
}

const inDoubt = (state: CoachState, frame: Frame, effects: readonly Effect[]): Heard => ({
  state,
  match: matchOf(state, frame, null),
  advice: advise(state),
  effects,
});

/** A string that may be about to break is not asked for a second time. A new string may be anywhere. */
function isDangerous(state: CoachState, frame: Frame, { course, string, others }: Extract<Match, { kind: 'match' }>): boolean {
  const one = stringNamed(state.strings, { course, string });
  if (one === undefined) return false;
  if (one.standing.sigmaCents >= anywhereCents) return true;
  if (isFretted(state, frame, { course, string })) return false;
  return others.length === 0 && !state.limitConfirmed && overloadOf(state.setup, one, frame.hertz) !== null;
}

/** Of a course of several strings, the pitch of the one that is meant. */
function pitchOf(state: CoachState, frame: Frame, { course, string }: Extract<Match, { kind: 'match' }>): HeardPitch {
  const { hertz: heard, sigmaCents, others = [] } = frame;
  if (others.length === 0) return { hertz: heard, sigmaCents };
  const { strings } = readCourse([{ hertz: heard, sigmaCents }, ...others], course, { ...contextOf(state), asked: course });
  const own = strings[string] ?? null;
  return own === null ? { hertz: heard, sigmaCents } : { hertz: own.hertz, sigmaCents: own.sigmaCents };
}

function matchOf(state: CoachState, frame: Frame, goesOn: Sound | null): Match {
  const { hertz: heard, others = [] } = frame;
  const current = currentString(state);
  const among = contextOf(state);
  if (goesOn !== null) {
    // One sound is one string's, wherever its peg takes it; the one asked for, where several of a course are heard at once.
    const askedString = goesOn.course === current?.course && others.length > 0 ? current.string : goesOn.string;
    return matchAs(heard, { ...among, asked: goesOn.course, askedString });
  }
  const asFor = (asked: number) => matchFrame(heard, { ...among, asked, askedString: stringMeant(state, asked) });
  if (!state.following) {
    if (current === null) return matchFrame(heard, { ...among, asked: null });
    const match = asFor(state.doubt?.sound.course ?? current.course);
    // Asked for again by name, it gives the same pitch: it is the log that is wrong about it.
    const isAgain =
      (match.kind === 'match' ? match.course !== current.course : match.reason === 'could-be-several') &&
      isSecondPluck(state, frame, current.course) &&
      !isFarBelow(current, heard);
    return isAgain ? matchAs(heard, { ...among, asked: current.course, askedString: current.string }) : match;
  }
  const match = likelyTurned(state, heard, matchFrame(heard, { ...among, asked: null }));
  if (match.kind === 'match') return asFor(match.course);
  const named = state.doubt?.sound.course ?? null;
  if (named !== null && match.reason !== 'an-octave-off') {
    const again = asFor(named);
    return again.kind === 'match' && again.course === named ? again : match;
  }
  if (match.reason !== 'could-be-several') return match;
  // Several could be there by now, but a string under way is heard on its way: the one that was heard there last is meant.
  const off = ({ presentHertz }: StringState): number => Math.abs(apartCents(heard, presentHertz));
  const here = state.strings.filter((one) => match.candidates.includes(one.course) && off(one) <= standingCents);
  const isUnderWay = current !== null && current.visit !== null && match.candidates.includes(current.course) && off(current) <= strideCents;
  const courses = new Set(isUnderWay ? [current.course] : here.map(({ course }) => course));
  const [only] = courses;
  if (only === undefined || courses.size > 1) return match;
  // A string that has had its turn is not preferred to one that is still waiting: a course is asked for by name.
  const waiting = state.queue.flatMap((place) => state.strings[place] ?? []);
  const isWaiting = waiting.some((one) => one.course === only && (isUnderWay || here.includes(one)));
  return !isWaiting && waiting.some(({ course }) => match.candidates.includes(course)) ? match : asFor(only);
}

/**
 * A course that has had its turn stays where it is: heard elsewhere while another is under way, it could be that one, taken far off its way by its peg.
 */
function likelyTurned(state: CoachState, heard: number, match: Match): Match {
  const current = currentString(state);
  if (match.kind === 'unknown' || current === null || current.visit === null || match.course === current.course) return match;
  const own = state.strings.filter(({ course }) => course === match.course);
  const isWaiting = own.some((one) => state.queue.some((place) => state.strings[place] === one));
  if (isWaiting || own.some(({ presentHertz }) => Math.abs(apartCents(heard, presentHertz)) <= standingCents)) return match;
  return { kind: 'unknown', reason: 'could-be-several', candidates: [current.course, match.course] };
}

/** How near to where it was last heard a string stands that was not turned, and how far a turning peg takes one between two frames, in cents. */
const standingCents = 35;
const strideCents = 60;
/** A string known no better than this is not expected anywhere, as a sigma in cents. */
const anywhereCents = 300;

const apartCents = (heard: number, from: number): number => centsBetween(hertz(heard), hertz(from));

/** The hint for the tracker: what may sound, and the place of the string asked for. */
export function listenFor(state: CoachState): { readonly hertz: readonly number[]; readonly asked: number | null } {
  return { hertz: state.strings.map(({ presentHertz }) => presentHertz), asked: state.following ? null : (state.queue[0] ?? null) };
}

/**
 * Where each string is expected to sound in a strum, in hertz per course and string: what the strum reader is asked for.
 * `step(state, { kind: 'strum', atSeconds, courses: readStrum(samples, { sampleRateHertz, courses: listenForStrum(state) }) })`.
 */
export const listenForStrum = (state: CoachState): Strings => presentOf(state);

const contextOf = (state: CoachState): Pick<MatchContext, 'present' | 'wanted' | 'heard'> => ({
  present: presentOf(state),
  wanted: state.setup.wanted,
  heard: state.setup.wanted.map((_, course) =>
    state.strings.some((one) => one.course === course && (one.sigmaCents !== null || one.landedAtSeconds !== null)),
  ),
});

const presentOf = (state: CoachState): Strings =>
  state.setup.wanted.map((strings, course) =>
    strings.map((wanted, string) => stringNamed(state.strings, { course, string })?.presentHertz ?? wanted),
  );
