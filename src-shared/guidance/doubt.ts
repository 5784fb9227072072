import { type Match, soundsFretted } from '#shared/matching/index.ts';
import { centsBetween, hertz } from '#shared/units/index.ts';
import { currentString } from './advice.ts';
import { overloadOf } from './guard.ts';
import { stringNamed } from './standing.ts';
import { type Frame, isRingOfAnother, soundOf } from './rings.ts';
import type { CoachState, Doubt, Sound, StringState } from './state.ts';

/** Whether a course that was asked for by name gives the same pitch again: it is believed, unless another that drowns it still rings. */
export function isSecondPluck(state: CoachState, frame: Frame, course: number): boolean {
  const { doubt } = state;
  if (doubt === null || doubt.sound.course !== course) return false;
  const isSamePitch = Math.abs(centsBetween(hertz(frame.hertz), hertz(doubt.sound.hertz))) <= samePitchCents;
  return isSamePitch && !isRingOfAnother(state, frame, course);
}

/** Which string of a course is meant: the one asked for by name, the one under way, or the first still to be visited; null = any. */
export function stringMeant(state: CoachState, course: number): number | null {
  const current = currentString(state);
  if (state.doubt?.sound.course === course) return state.doubt.sound.string;
  if (current?.course === course) return current.string;
  return state.queue.map((place) => state.strings[place]).find((one) => one?.course === course)?.string ?? null;
}

/** Whether another seems to sound while the course asked for is still to be plucked: the wrong one was plucked, or that one is not where it was thought. */
export function isInPlaceOfAsked(state: CoachState, match: Match): boolean {
  const current = currentString(state);
  if (state.following || current === null || current.sounding !== null) return false;
  return match.kind === 'match' ? match.course !== current.course : match.reason === 'could-be-several';
}

/** By more than this no string is tightened because of a sound that may be another’s, in cents: its peg is to tell first. */
const blindCents = 100;

/** Whether a string, if it is what sounds, is to be tightened far. */
export const isFarBelow = ({ aimHertz }: StringState, heardHertz: number): boolean =>
  centsBetween(hertz(aimHertz), hertz(heardHertz)) > blindCents;

/** Whether a string that nobody was told to turn yet sounds as if it were stopped at a fret: also where it will come by on its way. */
export function isFretted({ strings }: CoachState, frame: Frame, named: Pick<Sound, 'course' | 'string'>): boolean {
  const one = stringNamed(strings, named);
  return one !== undefined && one.visit === null && soundsFretted(hertz(frame.hertz), one.presentHertz);
}

/** What is to be asked because of a sound that is nobody's for sure; null where nothing need be asked. */
export function doubtOf(state: CoachState, frame: Frame, match: Match): Doubt | null {
  const names = (courses: readonly number[]): string => courses.map((course) => `${state.setup.wanted.length - course}`).join(' or ');
  const current = currentString(state);
  if (current !== null && isInPlaceOfAsked(state, match)) {
    if (!frame.steady) return null;
    const heard = match.kind === 'match' ? [match.course] : match.candidates.filter((course) => course !== current.course);
    const [asked, other] = [names([current.course]), names(heard)];
    const sentence = isSecondPluck(state, frame, current.course)
      ? `If that was course ${asked}, bring it up a little and pluck it again: it sounds like course ${other}.`
      : isRingOfAnother(state, frame, current.course)
        ? `Course ${other} still rings: stop it, and pluck course ${asked}.`
        : `That sounds like course ${other}: pluck course ${asked}.`;
    return { sound: soundOf(frame, current), sentence };
  }
  if (match.kind === 'match') {
    const { course, string, others } = match;
    const sentence = others.includes(course)
      ? `Course ${names([course])}: pluck string ${string + 1} by itself.`
      : others.length > 0
        ? `That may be course ${names(others)}: pluck course ${names([course])} by itself.`
        : `Course ${names([course])} was not there before${openWords(state, frame, match)}`;
    return { sound: soundOf(frame, match), sentence };
  }
  if (match.reason === 'an-octave-off') return octaveDoubt(state, frame, match.candidates, names);
  if (match.reason === 'no-string-near') {
    const isFound = !state.following && current !== null && current.visit !== null;
    if (current === null || isFound || !frame.steady) return null;
    const { course } = current;
    return { sound: soundOf(frame, current), sentence: `No course was there before: pluck course ${names([course])} by itself.` };
  }
  // Where a course was asked for and heard already, a sound that is two others' is not its own, and nothing else need be asked.
  if (!state.following) return null;
  const waiting = state.queue.map((place) => state.strings[place]?.course);
  const [first] = match.candidates;
  const course =
    current !== null && match.candidates.includes(current.course)
      ? current.course
      : (match.candidates.find((one) => waiting.includes(one)) ?? first);
  if (course === undefined) return null;
  return {
    sound: soundOf(frame, { course, string: stringMeant(state, course) ?? 0 }),
    sentence: `That could be course ${names(match.candidates)}: pluck course ${names([course])}.`,
  };
}

/** How the open string is asked for; where it would be about to break, if it was open, what to do then comes first. */
function openWords({ setup, strings }: CoachState, { hertz: heard }: Frame, named: Pick<Sound, 'course' | 'string'>): string {
  const one = stringNamed(strings, named);
  if (one === undefined || overloadOf(setup, one, heard) === null) return ': pluck it open, by itself.';
  return '. If that was the open string, loosen it; if not, pluck it open.';
}

/** Plucks of one string that stood still lie within this of one another, in cents. */
const samePitchCents = 35;

/**
 * An octave beside a course: another string, another instrument, a harmonic, or a string that has gone slack. It is never believed, so that no peg is
 * turned by an octave that was misheard.
 */
function octaveDoubt(
  state: CoachState,
  frame: Frame,
  candidates: readonly number[],
  names: (courses: readonly number[]) => string,
): Doubt | null {
  const asked = currentString(state)?.course;
  const course = asked !== undefined && candidates.includes(asked) ? asked : candidates[0];
  const one = state.strings.find((other) => other.course === course);
  if (course === undefined || one === undefined || !frame.steady) return null;
  const sound = soundOf(frame, { course, string: stringMeant(state, course) ?? 0 });
  const isLow = frame.hertz < one.presentHertz;
  const before = state.doubt?.sound;
  const isAgain =
    before !== undefined && before.course === course && Math.abs(centsBetween(hertz(frame.hertz), hertz(before.hertz))) <= samePitchCents;
  const which = `Course ${names([course])}`;
  if (!isAgain)
    return {
      sound,
      sentence: `${which} sounds an octave ${isLow ? 'low' : 'high'}: is it the right string? Pluck course ${names([course])} by itself.`,
    };
  return {
    sound,
    sentence: isLow
      ? `${which} still sounds an octave low: if it has gone slack, bring it up a little and pluck it again.`
      : `${which} still sounds an octave high: pluck it open, by itself.`,
  };
}
