import { courseNumber } from '#shared/instruments/index.ts';
import type { SpelledPitch } from '#shared/music/index.ts';
import { centsBetween, hertz } from '#shared/units/index.ts';
import type { StringState } from '#shared/guidance/index.ts';
import type { Retuning } from '../../stores/retuning.ts';
import { amountWords, courseText } from '../../ui/words.ts';

type Led = Pick<Retuning, 'coach' | 'advice' | 'from' | 'to' | 'overview'>;

/** The strings of a course, spelled; a unison is spelled once: `G4`, `E5 · E4`. */
export const pitchWords = (pitches: readonly SpelledPitch[] = []): string => courseText([...new Set(pitches)]);

/** Which way a string has to go, or null where it lies within tolerance of its aim. */
export function wayOf(one: StringState, toleranceCents: number): 'tighten' | 'loosen' | null {
  const togo = centsBetween(hertz(one.aimHertz), hertz(one.presentHertz));
  return Math.abs(togo) <= toleranceCents ? null : togo > 0 ? 'tighten' : 'loosen';
}

/** The string that is being worked on, or null. */
export const currentOf = ({ coach }: Pick<Retuning, 'coach'>): StringState | null => coach.strings[coach.queue[0] ?? -1] ?? null;

/** Which of a double course's strings is meant: `the one nearer the floor`; empty for a single string. */
export function whichString(string: number, count: number, { upsideDown }: { readonly upsideDown: boolean }): string {
  if (count < 2) return '';
  if (count > 2 && string === 1) return 'the middle one';
  return (string === 0) !== upsideDown ? 'the one nearer your eye' : 'the one nearer the floor';
}

/**
 * What is to be done next, as one sentence: `Course 2, E4 → E♭4: loosen, about a third of a semitone.` Its amount is where the string was when
 * the coach came to it, so that a sentence read aloud does not chase a turning peg.
 */
export function instruction(now: Led): string {
  const { coach, advice } = now;
  if (advice.action === 'done') return advice.why;
  if (coach.stopped !== null) return coach.stopped;
  if (coach.paused) return 'Paused.';
  if (advice.action === 'strum') return 'Strum all strings once, open, and let them ring.';
  const one = currentOf(now);
  if (one === null) return '';
  const { course, string } = one;
  const number = courseNumber(course, now.to.pitches.length);
  const which = whichString(string, now.to.pitches[course]?.length ?? 1, now.overview.instrument);
  const [from, to] = [pitchWords(now.from.pitches[course]), pitchWords(now.to.pitches[course])];
  const name = [`Course ${number}`, which, from === to ? to : `${from} → ${to}`].filter((part) => part !== '').join(', ');
  const way = wayOf(one, coach.setup.toleranceCents);
  if (way === null) return `${name}: pluck it${one.landedAtSeconds === null ? '' : ' once more'}.`;
  return `${name}: ${way}, ${amountWords(centsBetween(hertz(one.aimHertz), hertz(one.presentHertz)))}.`;
}

/** The course after this one, for a glance: `then 1 tighten, A4 → B♭4`; the strum where it follows, and empty where nothing does. */
export function thenWords({ coach, from, to }: Led): string {
  const isStrumNext = coach.phase === 'turning' && coach.setup.strumCheck === true && coach.strummed === null;
  const here = coach.strings[coach.queue[0] ?? -1]?.course;
  const next = coach.queue.map((place) => coach.strings[place]).find((one) => one !== undefined && one.course !== here);
  if (next === undefined) return isStrumNext ? 'then one strum of all' : '';
  const number = courseNumber(next.course, to.pitches.length);
  const [was, wanted] = [pitchWords(from.pitches[next.course]), pitchWords(to.pitches[next.course])];
  const way = wayOf(next, coach.setup.toleranceCents);
  return `then ${number} ${way ?? 'once more'}, ${was === wanted || way === null ? wanted : `${was} → ${wanted}`}`;
}

/** A sentence as it is to be said by a voice: signs become words. `E♭4` → `E flat 4`. */
export const spoken = (sentence: string): string =>
  sentence
    .replaceAll('♭', ' flat ')
    .replaceAll('♯', ' sharp ')
    .replaceAll('♮', ' natural ')
    .replaceAll('→', 'to')
    .replaceAll('·', 'and')
    .replaceAll('½', ' and a half')
    .replaceAll('−', 'minus ')
    .replaceAll(/(\d|half) c\b/gu, '$1 cents')
    .replaceAll(/\s+/gu, ' ')
    .replaceAll(/ ([.,:])/gu, '$1')
    .trim();
