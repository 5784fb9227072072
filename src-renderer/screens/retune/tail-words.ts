import type { Advice, StringState } from '#shared/guidance/index.ts';
import { courseNumber } from '#shared/instruments/index.ts';
import type { SpelledPitch } from '#shared/music/index.ts';
import { centsBetween, hertz } from '#shared/units/index.ts';
import { type Pull, pullAt } from '../../stores/pull.ts';
import type { Retuning } from '../../stores/retuning.ts';
import { amountWords, centsText, figure, halves, listed } from '../../ui/words.ts';
import { pairOf } from './pair.ts';
import { pitchWords, wayOf } from './sentences.ts';

export const noTail = {
  pull: '',
  wanted: '',
  aim: '',
  because: '',
  fresh: '',
  margins: '',
  where: '',
  isThere: false,
  pair: '',
  other: '',
};

/** The figures on the body of a course line: what it carries now and when wanted, where its aim lies and why, where it is. */
export function tailWords({ coach, overview, to, live, advice, renewed }: Retuning, course: number): typeof noTail {
  const states = coach.strings.filter((one) => one.course === course);
  const state = states.find((one) => one.string === (advice.course === course ? advice.string : 0)) ?? states[0];
  if (state === undefined) return noTail;
  const here = live?.match.kind === 'match' && live.match.course === course ? live.hertz : state.presentHertz;
  const now = pullAt(overview, course, state.string, here);
  const after = pullAt(overview, course, state.string, to.hertz[course]?.[state.string]);
  const isThere = states.every((one) => one.landedAtSeconds !== null && wayOf(one, coach.setup.toleranceCents) === null);
  const isSame = now.newtons !== null && after.newtons !== null && Math.abs(now.newtons / after.newtons - 1) < alikeShare;
  const isNew = renewed.some((one) => one.course === course && one.string === state.string);
  const isFound = !isNew || state.visit !== null || state.landedAtSeconds !== null;
  return {
    pull: now.newtons === null || !isFound ? '' : `${figure(now.newtons, 1)} N`,
    wanted: after.newtons === null || isSame ? '' : `wanted ${figure(after.newtons, 1)} N`,
    ...(advice.course === course ? aimWords(advice, to.pitches[course] ?? [], to.pitches.length) : { aim: '', because: '' }),
    fresh: isNew ? 'Taken for a new string.' : '',
    margins: marginWords(after),
    where: whereWords(state, isThere),
    isThere,
    ...pairOf(states, advice.course === course ? advice.string : null, overview.instrument),
  };
}

/** Pulls nearer to one another than this need not be told apart: 4 cents. */
const alikeShare = 0.005;

/** How far a string is from too slack to sound and from its limit: `Slack in 4 semitones, break in 13½.` */
function marginWords({ slackIn, breakIn }: Pull): string {
  const [first, ...rest] = [
    ...(slackIn === null ? [] : [{ what: 'slack in', semitones: halves(slackIn) }]),
    ...(breakIn === null ? [] : [{ what: 'break in', semitones: halves(breakIn) }]),
  ];
  if (first === undefined) return '';
  const unit = first.semitones === '1' || first.semitones === '½' ? 'semitone' : 'semitones';
  return sentence([`${first.what}\u00a0${first.semitones} ${unit}`, ...rest.map(({ what, semitones }) => `${what}\u00a0${semitones}`)]);
}

function whereWords(state: StringState, isThere: boolean): string {
  const off = centsBetween(hertz(state.presentHertz), hertz(state.aimHertz));
  const side = off < 0 ? 'below' : 'above';
  if (!isThere && Math.abs(off) < 0.5) return 'not heard yet';
  return Math.abs(off) >= 30 ? `${amountWords(off)} ${side}` : `${centsText(off, state.sigmaCents ?? 1)} ${side} its aim`;
}

/** Where the aim lies beside the wanted pitch, and why: `Aim 2 c below E♭4.` – `Settling adds 3, tightening course 1 takes off 1.` */
function aimWords(
  { leadCents, couplingCents, pulls }: Advice,
  wanted: readonly SpelledPitch[],
  courses: number,
): { readonly aim: string; readonly because: string } {
  const beside = (leadCents ?? 0) + (couplingCents ?? 0);
  if (Math.abs(beside) < 0.5) return { aim: '', because: '' };
  const settling = Math.abs(leadCents ?? 0) < 0.5 ? [] : [`settling ${change(-(leadCents ?? 0))}`];
  const because = [...settling, ...pullWords(pulls, 'loosening', courses), ...pullWords(pulls, 'tightening', courses)];
  return {
    aim: `Aim ${halves(Math.abs(beside))} c ${beside < 0 ? 'below' : 'above'} ${pitchWords(wanted)}.`,
    because: because.length === 0 ? '' : sentence(because),
  };
}

/** What the courses still to be loosened, or tightened, do together: `loosening courses 2 and 5 adds 11`. */
function pullWords(pulls: Advice['pulls'], way: 'loosening' | 'tightening', count: number): readonly string[] {
  const these = pulls.filter(({ cents }) => cents > 0 === (way === 'loosening'));
  const sum = these.reduce((total, { cents }) => total + cents, 0);
  if (Math.abs(sum) < 0.5) return [];
  const numbers = [...new Set(these.map(({ course }) => courseNumber(course, count)))];
  return [`${way} ${numbers.length === 1 ? 'course' : 'courses'} ${listed(numbers)} ${change(sum)}`];
}

/** Parts made into a sentence. */
const sentence = (parts: readonly string[]): string => {
  const words = parts.join(', ');
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}.`;
};

const change = (cents: number): string => `${cents > 0 ? 'adds' : 'takes off'} ${halves(Math.abs(cents))}`;
