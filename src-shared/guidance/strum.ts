import { centsBetween, hertz } from '#shared/units/index.ts';
import { leadOf } from './aims.ts';
import { ninetyFive } from './landing.ts';
import type { CoachState, StringState, StrumHeard, StrumVerdict } from './state.ts';

/** Strings expected this near to one another cannot be named in a strum, only told apart, in cents (the reach of the strum reader and a half). */
const alikeCents = 90;

/**
 * What one strum tells of every string, by place: leave it, turn it by so much, or pluck it by itself and why. Readings of strings that stand
 * alike could be either's: they count where they are good for all of them.
 */
export function judgeStrum(state: CoachState, heard: StrumHeard): readonly StrumVerdict[] {
  const alone = state.strings.map((one) => judgeString(state, one, heard[one.course]?.[one.string]));
  return alone.map((verdict, place) => {
    const group = alikeTo(state, place);
    const isGood = [verdict, ...group.map((other) => alone[other])].every((one) => one?.kind === 'leave');
    if (group.length === 0 || verdict.reason === 'unheard') return verdict;
    if (isGood) return { ...verdict, reason: 'alike' };
    return { ...verdict, kind: 'pluck', cents: null, sigmaCents: null, reason: 'alike' };
  });
}

function judgeString(state: CoachState, one: StringState, heard: StrumHeard[number][number] | undefined): StrumVerdict {
  const { course, string } = one;
  const nothing = { course, string, kind: 'pluck', hertz: null, cents: null, sigmaCents: null } as const;
  if (heard === undefined) return { ...nothing, reason: 'unheard' };
  if ('refusal' in heard) return { ...nothing, reason: heard.refusal === 'two sounds' ? 'alike' : 'unheard' };
  const off = centsBetween(hertz(heard.hertz), hertz(one.wantedHertz)) - leadOf(state, one, 0);
  const reach = ninetyFive * heard.sigmaCents;
  const said = { course, string, hertz: heard.hertz, cents: -off, sigmaCents: heard.sigmaCents };
  const { toleranceCents } = state.setup;
  if (Math.abs(off) + reach <= toleranceCents) return { ...said, kind: 'leave', reason: null };
  return Math.abs(off) - reach > toleranceCents ? { ...said, kind: 'turn', reason: null } : { ...said, kind: 'pluck', reason: 'unsure' };
}

const alikeTo = ({ strings }: CoachState, place: number): readonly number[] =>
  strings.flatMap((other, index) => (index !== place && areNear(other, strings[place]) ? [index] : []));

const areNear = (one: StringState, other: StringState | undefined): boolean =>
  other !== undefined && Math.abs(centsBetween(hertz(one.presentHertz), hertz(other.presentHertz))) < alikeCents;

/** Pitches of a strum that could be one another's: unisons and octaves, within this of it, in cents. */
const octaveCents = 60;

/**
 * The outcome of a strum in a sentence that names only the courses to touch. `toPluck`: places that have to be plucked by themselves.
 * → "Only course 2: tighten 5 c. 4, 3 and 1: leave them."
 */
export function strumSentence(state: CoachState, verdicts: readonly StrumVerdict[], toPluck: readonly number[]): string {
  const number = (course: number): number => state.setup.wanted.length - course;
  const courses = state.setup.wanted.map((_, course) => course);
  const turns = courses.flatMap((course) => largestTurn(verdicts, course) ?? []);
  const plucks = courses.filter((course) =>
    toPluck.some((place) => verdicts[place]?.course === course && verdicts[place].kind === 'pluck'),
  );
  const left = courses.filter((course) => !turns.some((turn) => turn.course === course) && !plucks.includes(course));
  if (turns.length + plucks.length === 0) return 'Every course is within tolerance.';
  const moves = turns.map(
    ({ course, cents }) => `ourse ${number(course)}: ${(cents ?? 0) > 0 ? 'tighten' : 'loosen'} ${Math.round(Math.abs(cents ?? 0))} c`,
  );
  const [only] = moves;
  const said = moves.length === 1 ? `Only c${only}.` : moves.length > 1 ? `C${moves.join('; c')}.` : '';
  const leave = left.length > 0 ? `${listed(left.map(number))}: leave ${left.length > 1 ? 'them' : 'it'}.` : '';
  return [said, ...pluckSentences(state, verdicts, plucks), leave].filter((part) => part !== '').join(' ');
}

function largestTurn(verdicts: readonly StrumVerdict[], course: number): StrumVerdict | null {
  const turns = verdicts.filter((one) => one.course === course && one.kind === 'turn');
  return turns.length === 0 ? null : turns.reduce((a, b) => (Math.abs(b.cents ?? 0) > Math.abs(a.cents ?? 0) ? b : a));
}

/** What is to be plucked, course by course; courses that can't be told from one another are named together. */
function pluckSentences(state: CoachState, verdicts: readonly StrumVerdict[], plucks: readonly number[]): readonly string[] {
  const number = (course: number): number => state.setup.wanted.length - course;
  const sentences = plucks.map((course) => {
    const reason = verdicts.find((one) => one.course === course && one.kind === 'pluck')?.reason;
    if (reason === 'unsure') return `Not sure of course ${number(course)}: pluck it.`;
    if (reason === 'unheard') return `Course ${number(course)} wasn’t heard: pluck it.`;
    const alike = state.setup.wanted.flatMap((_, other) => (other === course || couldBe(state, course, other) ? [other] : []));
    if (alike.length === 1 && state.setup.wanted[course]?.length === 1) return `Course ${number(course)} wasn’t heard clearly: pluck it.`;
    if (alike.length === 1) return `Can’t tell the strings of course ${number(course)} apart: pluck them one by one.`;
    const named = plucks.filter((other) => alike.includes(other)).map((other) => `course ${number(other)}`);
    return `Can’t tell ${listed(alike.map(number))} apart: pluck ${named.join(', then ')}.`;
  });
  return [...new Set(sentences)];
}

/** Whether two courses have strings that stand alike, octaves aside. */
const couldBe = (state: CoachState, course: number, other: number): boolean =>
  state.strings.some((one) => one.course === course && state.strings.some((two) => two.course === other && areOctaves(one, two)));

function areOctaves(one: StringState, two: StringState): boolean {
  const apart = Math.abs(centsBetween(hertz(one.presentHertz), hertz(two.presentHertz)));
  return Math.abs(apart - 1200 * Math.round(apart / 1200)) < octaveCents;
}

const listed = (numbers: readonly number[]): string =>
  numbers.length < 2 ? numbers.join('') : `${numbers.slice(0, -1).join(', ')} and ${numbers.at(-1)}`;
