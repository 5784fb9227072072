import { courseNumber } from '#shared/instruments/index.ts';
import { centsBetween, hertz } from '#shared/units/index.ts';
import { leastCents } from '../../stores/expected.ts';
import type { Retuning } from '../../stores/retuning.ts';
import { amountWords, centsText, halves } from '../../ui/words.ts';
import { hollowOf } from './hollow-words.ts';
import { pitchWords, whichString, wayOf } from './sentences.ts';
import { pluckReason } from './strum-words.ts';

/** The words on the headstock of a course line. `hue` is `below`, `above` or empty; `isNews` = the last line must be seen at once. */
export type HeadWords = {
  readonly number: string;
  readonly from: string;
  readonly to: string;
  readonly command: string;
  readonly hue: '' | 'below' | 'above';
  readonly cents: string;
  readonly amount: string;
  readonly isNews: boolean;
  readonly plan: string;
};

export const noHead: HeadWords = { number: '', from: '', to: '', command: '', hue: '', cents: '', amount: '', isNews: false, plan: '' };

/** What a course is to do: the word to obey and how far for the one being worked on, what becomes of it for the others. */
export function headWords(now: Retuning, course: number): HeadWords {
  const base = {
    ...noHead,
    number: String(courseNumber(course, now.to.pitches.length)),
    from: pitchWords(now.from.pitches[course]),
    to: pitchWords(now.to.pitches[course]),
  };
  return now.advice.course === course
    ? { ...base, ...commandWords(now, course), ...otherWords(now, course) }
    : { ...base, plan: now.to.pitches.length > 4 ? shortPlan(now, course) : planWords(now, course) };
}

/** What stands in the place of a command where nothing can be heard: the sentence below says why. */
export const nothingHeard: Partial<HeadWords> = { command: 'waiting', hue: '', cents: 'nothing heard', amount: '', isNews: false };

/** That another course sounds than the one asked for: whoever turns a peg meanwhile should know. Nothing where a caution or a notice stands. */
function otherWords({ advice, coach, live, to }: Retuning, course: number): Partial<HeadWords> {
  if (live?.match.kind !== 'match' || live.match.course === course || coach.paused || advice.action === 'stop') return {};
  const [heard, asked] = [live.match.course, course].map((one) => courseNumber(one, to.pitches.length));
  return advice.action === 'pluck'
    ? { amount: `that sounds like course ${heard}`, isNews: true }
    : { cents: `sounds like ${heard}`, amount: `pluck course ${asked} by itself`, isNews: true };
}

/** A notice in the place of the figure, where it is read from afar, and the figure after it: `the other way` – `59 c to go`. */
function noticeWords(notice: string, togo: string): Pick<HeadWords, 'cents' | 'amount' | 'isNews'> {
  const [what = '', question = ''] = notice
    .replace(/^Course \d+ /u, '')
    .replace(/\.$/u, '')
    .split(': ');
  const cents = `${what.charAt(0).toLowerCase()}${what.slice(1)}`;
  return { cents, amount: `${question} ${togo} to go`.trim(), isNews: true };
}

type Command = Pick<HeadWords, 'command'> & Partial<HeadWords>;

function commandWords(now: Retuning, course: number): Command {
  const { advice, coach, live, to, overview } = now;
  const togo = advice.centsToGo ?? 0;
  const state = coach.strings.find((one) => one.course === course && one.string === advice.string);
  const sigma = state?.sigmaCents ?? 0;
  const which = whichString(advice.string ?? 0, to.pitches[course]?.length ?? 1, overview.instrument);
  switch (advice.action) {
    case 'tighten':
    case 'loosen': {
      const notice = state?.visit?.notice ?? null;
      const cents = `${sigma > 3 ? 'about ' : ''}${centsText(togo, sigma)}`;
      const hue = advice.action === 'tighten' ? 'below' : 'above';
      const how = notice === null ? { cents, amount: which === '' ? amountWords(togo) : which } : noticeWords(notice, cents);
      return { command: advice.action, hue, ...how };
    }
    case 'stop':
      return { command: 'stop', cents: 'loosen it', amount: 'and look at its peg', isNews: true };
    case 'wait':
      if (coach.paused) return { command: 'paused', amount: 'press Space to go on' };
      return {
        command: 'there',
        cents: togo === 0 ? 'on its aim' : `${centsText(togo, sigma)} ${togo < 0 ? 'above' : 'below'}`,
        amount: 'its aim; let it sound',
      };
    default: {
      if (live?.match.kind === 'unknown')
        return {
          command: 'pluck',
          cents: 'can’t tell yet',
          amount: `only course ${courseNumber(course, to.pitches.length)}, please`,
          isNews: true,
        };
      if (coach.doubt !== null) return { command: 'pluck', cents: 'by itself', amount: which };
      if (state === undefined || state.sounding !== null)
        return live === null
          ? { command: 'pluck', cents: 'once more', amount: 'and let it sound' }
          : { command: 'wait', cents: 'not sure yet', amount: 'let it sound' };
      const isNew = state.visit === null && now.renewed.some((one) => one.course === course && one.string === state.string);
      if (isNew) return { command: 'pluck', cents: 'once', amount: 'it may be anywhere' };
      const way = wayOf(state, coach.setup.toleranceCents);
      const reason = pluckReason(now, course, advice.string ?? 0);
      if (reason !== '') return { command: 'pluck', cents: 'once', amount: [which, reason].filter((part) => part !== '').join(': ') };
      if (way === null) return { command: 'pluck', cents: 'once', amount: which === '' ? 'the others may have drawn it off' : which };
      const amount = amountWords(togo).replace('about ', '');
      return {
        command: 'pluck',
        cents: `and ${way}`,
        amount: [which, amount].filter((part) => part !== '').join(', '),
      };
    }
  }
}

/** What becomes of a course, in a word or two: where there are many there is room for no more. */
function shortPlan({ coach }: Retuning, course: number): string {
  const states = coach.strings.filter((one) => one.course === course);
  if (states.every(({ skipped }) => skipped)) return 'left';
  const places = coach.queue.filter((index) => coach.strings[index]?.course === course);
  if (places.length > 0) return places.includes(coach.queue[1] ?? -1) ? 'next' : 'waiting';
  return states.some(({ moves }) => moves.length > 0) ? 'turned' : 'stays';
}

/** What becomes of a course that is not being worked on. */
function planWords(now: Retuning, course: number): string {
  const { coach, expected } = now;
  const states = coach.strings.filter((one) => one.course === course);
  const [first] = states;
  if (first === undefined) return '';
  if (states.every(({ skipped }) => skipped)) return 'left as it is';
  const place = coach.queue.findIndex((index) => coach.strings[index]?.course === course);
  const state = coach.strings[coach.queue[place] ?? -1] ?? first;
  const togo = centsBetween(hertz(state.aimHertz), hertz(state.presentHertz));
  const isAway = Math.abs(togo) > coach.setup.toleranceCents;
  if (place !== -1)
    return isAway
      ? `then: ${togo < 0 ? 'loosen' : 'tighten'} ${amountWords(togo).replace('about ', '')}`
      : `pluck once${state.landedAtSeconds === null ? '' : ' more'}`;
  if (state.landedAtSeconds === null) return 'stays';
  if (isAway) return 'drawn off, comes again';
  const own = expected.find((one) => one.course === course);
  const hollow = own === undefined ? null : hollowOf(own, state, now.to.pitches[course] ?? []);
  if (Math.abs(state.leadCents) >= leastCents)
    return `left ${halves(Math.abs(state.leadCents))} c ${state.leadCents < 0 ? 'below' : 'above'}, to settle`;
  return hollow !== null && hollow.ringCents === null ? hollow.what : 'there';
}
