import { centsBetween, hertz } from '#shared/units/index.ts';
import { leadOf } from './aims.ts';
import { ninetyFive, type Pitch } from './landing.ts';
import { expectedOffset, stringAt } from './standing.ts';
import type { CoachState, StringState, StrumHeard, StrumVerdict } from './state.ts';

/** Strings expected this near to one another cannot be named in a strum, only told apart, in cents (the reach of the strum reader and a half). */
const alikeCents = 90;
/** A reading this many sigmas from where its string is expected is not believed to be in its place before it is plucked. */
const surpriseSigmas = 3;

/**
 * What one strum tells of every string, by place: leave it, turn it by so much, or pluck it by itself and why. Readings of strings that stand
 * alike could be either's: they count where they are good for all of them.
 */
export function judgeStrum(state: CoachState, heard: StrumHeard): readonly StrumVerdict[] {
  const alone = state.strings.map((one, place) => judgeString(state, place, one, heard[one.course]?.[one.string]));
  return alone.map((verdict, place) => {
    const group = alikeTo(state, place);
    const isGood = [verdict, ...group.map((other) => alone[other])].every((one) => one?.kind === 'leave');
    if (group.length === 0 || verdict.reason === 'unheard') return verdict;
    if (isGood) return { ...verdict, reason: 'alike' };
    return { ...verdict, kind: 'pluck', cents: null, sigmaCents: null, reason: 'alike' };
  });
}

function judgeString(state: CoachState, place: number, one: StringState, heard: StrumHeard[number][number] | undefined): StrumVerdict {
  const { course, string } = one;
  const nothing = { course, string, kind: 'pluck', hertz: null, cents: null, sigmaCents: null } as const;
  if (heard === undefined) return { ...nothing, reason: 'unheard' };
  if ('refusal' in heard) return { ...nothing, reason: heard.refusal === 'two sounds' ? 'alike' : 'unheard' };
  const weighed = weigh(state, place, heard);
  const lead = leadOf(state, one, 0);
  const { toleranceCents } = state.setup;
  const isInside = (cents: number, sigma: number) => Math.abs(cents - lead) + ninetyFive * sigma <= toleranceCents;
  const read = centsBetween(hertz(heard.hertz), hertz(one.wantedHertz));
  const said = { course, string, hertz: heard.hertz, cents: lead - read, sigmaCents: heard.sigmaCents };
  if (Math.abs(weighed.cents - lead) - ninetyFive * weighed.sigmaCents > toleranceCents) return { ...said, kind: 'turn', reason: null };
  // Where the reading and what was known before cannot both be true, either has to be good.
  const { cents, variance } = expectedOffset(state, place, state.nowSeconds);
  const isGood = isInside(weighed.cents, weighed.sigmaCents) && (!weighed.isSurprise || isInside(cents, Math.sqrt(variance)));
  return isGood ? { ...said, kind: 'leave', reason: null } : { ...said, kind: 'pluck', reason: 'unsure' };
}

type Weighed = { readonly cents: number; readonly sigmaCents: number; readonly isSurprise: boolean };

/**
 * Where a string stands by a reading of a strum together with what was known of it before, in cents from wanted: one that was plucked a moment ago
 * is known better than a vague reading tells. Where the two cannot both be true, the reading stands alone.
 */
export function weigh(state: CoachState, place: number, { hertz: heard, sigmaCents }: Pitch): Weighed {
  const expected = expectedOffset(state, place, state.nowSeconds);
  const cents = centsBetween(hertz(heard), hertz(stringAt(state.strings, place).wantedHertz));
  const total = expected.variance + sigmaCents ** 2;
  if (Math.abs(cents - expected.cents) > surpriseSigmas * Math.sqrt(total)) return { cents, sigmaCents, isSurprise: true };
  const share = expected.variance / total;
  return { cents: expected.cents + share * (cents - expected.cents), sigmaCents: sigmaCents * Math.sqrt(share), isSurprise: false };
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
