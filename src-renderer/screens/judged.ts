import { courseNumber } from '#shared/instruments/index.ts';
import { type CautionId, cautionSentence, type MoveVerdict } from '#shared/tension/index.ts';
import type { StringJudgement, TuningJudgement } from '../stores/judging.ts';
import { figure, halves, listed } from '../ui/words.ts';
import { marginWords } from './margins.ts';

/** Cautions with what they are about: the courses, or the whole instrument (null). */
export type CautionLine = { readonly who: string | null; readonly sentence: string };

/** What is said of a string by the verdict on its move; null where nothing has to be. */
const byVerdict: Readonly<Record<MoveVerdict, CautionId | null>> = {
  within: null,
  high: 'old-strings',
  soft: 'soft',
  'near the limit': 'near-the-limit',
  confirm: 'near-the-limit',
  'another string': 'another-string',
};

/** The gravest first. */
const order: readonly CautionId[] = ['another-string', 'beyond-rating', 'near-the-limit', 'soft', 'old-strings'];

const cautionsOf = ({ fromHome }: StringJudgement): readonly CautionId[] => {
  const id = byVerdict[fromHome.verdict];
  return [...(fromHome.isBeyondRating ? (['beyond-rating'] as const) : []), ...(id === null ? [] : [id])];
};

/** Whether every string of an instrument can take a tuning: none needs another string, goes past its limit or its maker's rating, or gets slack. */
export const canTake = ({ strings }: TuningJudgement): boolean =>
  strings.every(
    ({ fromHome, later }) =>
      !fromHome.isBeyondRating &&
      fromHome.verdict !== 'another string' &&
      fromHome.verdict !== 'confirm' &&
      (later.slackIn === null || later.slackIn > 0) &&
      (later.breakIn === null || later.breakIn > 0),
  );

/** The cautions: a sentence with the courses that it is about, the gravest first; last what holds for the whole instrument, in one line. */
export function cautionLines({ strings, load }: TuningJudgement, courses: number): readonly CautionLine[] {
  const lines = order.flatMap((id): CautionLine[] => {
    const about = strings.filter((string) => cautionsOf(string).includes(id));
    if (about.length === 0) return [];
    const numbers = [...new Set(about.map(({ course }) => courseNumber(course, courses)))];
    return [{ who: listed(numbers), sentence: cautionSentence(id) }];
  });
  const general = [
    ...(load === null || load.verdict === 'within' ? [] : (['whole-load'] as const)),
    ...(strings.some(({ semitones }) => semitones > 0) ? (['face-away'] as const) : []),
    'maker-decides' as const,
  ];
  return [...lines, { who: null, sentence: general.map(cautionSentence).join(' ') }];
}

/** The gravest thing about a tuning in a few words for its row; null where nothing is. */
export function gravest({ strings }: TuningJudgement, courses: number): string | null {
  const about = (test: (string: StringJudgement) => boolean): string =>
    listed([...new Set(strings.filter(test).map(({ course }) => courseNumber(course, courses)))]);
  const other = about(({ fromHome }) => fromHome.verdict === 'another string');
  if (other !== '') return `another string for ${other}`;
  const rated = about(({ fromHome }) => fromHome.isBeyondRating);
  return rated === '' ? null : `${rated} beyond its rating`;
}

/** How far a string has to go and what that does to its pull: `down 2, 8.0 N less`. Empty where it stays. */
export function changeWords({ semitones, nowNewtons, later }: StringJudgement): string {
  if (semitones === 0) return '';
  const way = `${semitones < 0 ? 'down' : 'up'} ${halves(Math.abs(semitones))}`;
  if (nowNewtons === null || later.newtons === null) return way;
  const change = later.newtons - nowNewtons;
  return `${way}, ${figure(Math.abs(change), 1)} N ${change < 0 ? 'less' : 'more'}`;
}

/** The margin on the side to which a string goes, the lesser of both where it stays: `slack in 2½`. Empty where none is known. */
export function leftWords({ semitones, later: { slackIn, breakIn } }: StringJudgement): string {
  const slack = slackIn === null ? null : ({ side: 'slack', semitones: slackIn } as const);
  const near = breakIn === null ? null : ({ side: 'break', semitones: breakIn } as const);
  const ahead = semitones < 0 ? slack : semitones > 0 ? near : null;
  const least = slack === null || near === null ? (slack ?? near) : slack.semitones < near.semitones ? slack : near;
  const shown = ahead ?? least;
  if (shown === null) return '';
  if (shown.semitones > 0) return marginWords(shown);
  return shown.side === 'slack' ? 'slack' : 'past its limit';
}

/** All strings together against the home tuning: `5 % less than at home`; about as much within a hundredth. */
export function loadWords({ load }: TuningJudgement): string {
  if (load === null) return '';
  const percent = Math.round(Math.abs(load.rise) * 100);
  return percent < 1 ? 'as much as at home' : `${percent} % ${load.rise < 0 ? 'less' : 'more'} than at home`;
}

/** The pulls of all strings together in newtons; null where one of them is not known. */
export const togetherOf = (newtons: readonly (number | null)[]): number | null =>
  newtons.reduce<number | null>((sum, pull) => (sum === null || pull === null ? null : sum + pull), 0);
