import type { Strummed, StrumVerdict } from '#shared/guidance/index.ts';
import { courseNumber } from '#shared/instruments/index.ts';
import type { Retuning } from '../../stores/retuning.ts';
import { clockTime } from '../../ui/time.ts';
import { capital, centsText, count, figure, listed } from '../../ui/words.ts';

/** A course to touch: `course 2: ` – `tighten` – ` 5 c`; those to be plucked go together: `courses 4 and 1: ` – `pluck them`. */
export type Touch = {
  readonly course: number;
  readonly name: string;
  readonly word: string;
  readonly hue: '' | 'below' | 'above';
  readonly amount: string;
};

/** What a strum told, in words. */
export type Outcome = {
  readonly atSeconds: number;
  /** The courses to touch, in the order of turning. */
  readonly touches: readonly Touch[];
  /** What was heard, and why a course is to be plucked. */
  readonly heard: string;
  /** The courses to leave, and how near they are. */
  readonly rest: string;
  readonly near: string;
  /** Where the first course was read: `5 c below` – `its aim, sure to within 0.9`. */
  readonly where: string;
  readonly sure: string;
};

/** What the last strum told, for as long as nothing was plucked or turned since; null where it told nothing, or is past. */
export function outcomeOf(now: Pick<Retuning, 'coach' | 'to'>): Outcome | null {
  const { strummed, strings, queue, phase } = now.coach;
  const first = strings[queue[0] ?? -1];
  if (strummed === null || strummed.verdicts === null || phase !== 'rechecking' || first === undefined) return null;
  const isPast =
    first.visit !== null || now.coach.doubt !== null || strings.some(({ landedAtSeconds }) => (landedAtSeconds ?? 0) > strummed.atSeconds);
  if (isPast) return null;
  // A string that is good but may have moved since is asked for later, in its turn.
  if (!isToTouch(strummed.verdicts, queue)) return null;
  const known = outcomes.get(strummed) ?? describe(now, strummed, strummed.verdicts);
  outcomes.set(strummed, known);
  return known;
}

const isToTouch = (verdicts: readonly StrumVerdict[], queue: readonly number[]): boolean =>
  queue.some((place) => verdicts[place] !== undefined && verdicts[place].kind !== 'leave');

/** Put into words once for each strum. */
const outcomes = new WeakMap<Strummed, Outcome>();

function describe({ coach, to }: Pick<Retuning, 'coach' | 'to'>, { atSeconds }: Strummed, verdicts: readonly StrumVerdict[]): Outcome {
  const { strings, queue } = coach;
  const total = to.pitches.length;
  const number = (course: number) => courseNumber(course, total);
  const queued = [...new Set(queue.flatMap((place) => (isToTouch(verdicts, [place]) ? (strings[place]?.course ?? []) : [])))];
  const rest = [...to.pitches.keys()].filter((course) => !queued.includes(course));
  const left = verdicts.filter(({ course, cents }) => rest.includes(course) && cents !== null);
  const own = verdicts.find(({ course, kind }) => course === queued[0] && kind !== 'leave');
  return {
    atSeconds,
    touches: pluckedTogether(queued.map((course) => touchOf(verdicts, course, number(course)))),
    heard: heardWords(verdicts, queued, to.pitches, atSeconds),
    rest: rest.length === 0 ? '' : `${listed(rest.map(number))}: leave ${rest.length === 1 ? 'it' : 'them'}.`,
    near: left.length === 0 ? '' : `${left.length === 1 ? 'It is' : 'None is more than'} ${widest(left)} from its aim.`,
    where:
      own?.kind === 'turn' && own.cents !== null
        ? `${centsText(own.cents, own.sigmaCents ?? 1)} ${own.cents > 0 ? 'below' : 'above'}`
        : 'pluck it',
    sure: own?.kind === 'turn' ? `its aim, sure to within ${figure(Math.max(0.1, 2 * (own.sigmaCents ?? 1)), 1)}\u00a0c` : 'by itself',
  };
}

/** Every course that is only to be plucked, named in one breath in the place of the first of them. */
function pluckedTogether(touches: readonly Touch[]): readonly Touch[] {
  const plucks = touches.filter(({ hue }) => hue === '');
  const [first] = plucks;
  if (first === undefined || plucks.length === 1) return touches;
  const name = `courses ${listed(plucks.map((touch) => touch.name.replace('course ', '')))}`;
  return touches.flatMap((touch) => (touch === first ? { ...first, name, word: 'pluck them' } : plucks.includes(touch) ? [] : touch));
}

function widest(left: readonly StrumVerdict[]): string {
  const most = left.reduce((far, one) => (Math.abs(one.cents ?? 0) > Math.abs(far.cents ?? 0) ? one : far));
  return centsText(Math.max(0.1, Math.abs(most.cents ?? 0)), 0);
}

function touchOf(verdicts: readonly StrumVerdict[], course: number, number: number): Touch {
  const turns = verdicts.filter((one) => one.course === course && one.kind === 'turn');
  const [first] = turns.toSorted((a, b) => Math.abs(b.cents ?? 0) - Math.abs(a.cents ?? 0));
  const base = { course, name: `course ${number}` };
  if (first === undefined) return { ...base, word: 'pluck it', hue: '', amount: '' };
  const isBelow = (first.cents ?? 0) > 0;
  return {
    ...base,
    word: isBelow ? 'tighten' : 'loosen',
    hue: isBelow ? 'below' : 'above',
    amount: centsText(first.cents ?? 0, first.sigmaCents ?? 1),
  };
}

/**
 * `All 4 courses heard in one strum at 20:07.`, or what was not, of the courses still to be touched: what was plucked well before need not be heard in
 * the strum too. `Heard in one strum at 20:07. Can’t tell 4 and 2 apart.`
 */
function heardWords(
  verdicts: readonly StrumVerdict[],
  queued: readonly number[],
  pitches: readonly (readonly unknown[])[],
  atSeconds: number,
): string {
  const at = `in one strum at ${clockTime(atSeconds * 1000)}.`;
  if (verdicts.every(({ kind }) => kind !== 'pluck')) return `All ${count(pitches.length, 'course')} heard ${at}`;
  const of = (reason: StrumVerdict['reason'], isMeant: (course: number) => boolean) =>
    queued
      .filter((course) => isMeant(course) && verdicts.some((one) => one.course === course && one.kind === 'pluck' && one.reason === reason))
      .map((course) => courseNumber(course, pitches.length));
  const isPair = (course: number): boolean => (pitches[course]?.length ?? 1) > 1;
  const [unheard, pairs, alike, unsure] = [
    of('unheard', () => true),
    of('alike', isPair),
    of('alike', (course) => !isPair(course)),
    of('unsure', () => true),
  ];
  return [
    `Heard ${at}`,
    unheard.length === 0 ? '' : `Not heard: ${listed(unheard)}.`,
    pairs.length === 0 ? '' : `Can’t tell the strings of ${listed(pairs)} apart.`,
    alike.length === 0 ? '' : alike.length === 1 ? `Not clear: ${listed(alike)}.` : `Can’t tell ${listed(alike)} apart.`,
    unsure.length === 0 ? '' : `Not sure of ${listed(unsure)}.`,
  ]
    .filter((part) => part !== '')
    .join(' ');
}

/** Why a course has to be plucked by itself after a strum; empty where that is not why. */
export function pluckReason({ coach }: Pick<Retuning, 'coach'>, course: number, string: number): string {
  const verdict = coach.strummed?.verdicts?.find((one) => one.course === course && one.string === string);
  const state = coach.strings.find((one) => one.course === course && one.string === string);
  if (verdict?.kind !== 'pluck' || (state?.landedAtSeconds ?? 0) > (coach.strummed?.atSeconds ?? 0)) return '';
  return verdict.reason === 'unheard'
    ? 'the strum did not tell it'
    : verdict.reason === 'alike'
      ? 'alike with another in the strum'
      : 'not sure enough from the strum';
}

/** `Tighten course 2`, `Pluck courses 4 and 1`. */
export const touchButton = ({ name, word }: Touch): string => `${capital(word.replace(/ (?:it|them)$/u, ''))} ${name}`;

/** `Only course 2: tighten 5 c.`, for a voice. */
export const touchWords = (touches: readonly Touch[]): string => {
  const words = touches.map(({ name, word, amount }) => `${name}: ${word}${amount === '' ? '' : ` ${amount}`}`);
  return words.length === 1 ? `Only ${words.join('')}.` : `${capital(words.join('; '))}.`;
};

/** What is asked for while a strum is waited for. */
export const strumAsked = ({ strum }: Pick<Retuning, 'strum'>): { readonly word: string; readonly how: string } => {
  if (strum !== null && strum.beganAtSeconds !== null) return { word: 'Let them ring', how: 'Listening to every string at once.' };
  return {
    word: 'Strum all strings',
    how: (strum?.misses ?? 0) > 0 ? 'That was not all of them. Once more, open, and let them ring.' : 'Once, open, and let them ring.',
  };
};
