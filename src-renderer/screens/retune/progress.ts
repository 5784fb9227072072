import { courseNumber } from '#shared/instruments/index.ts';
import { centsBetween, hertz } from '#shared/units/index.ts';
import type { Retuning } from '../../stores/retuning.ts';
import { amountWords, count } from '../../ui/words.ts';
import { whichString, wayOf } from './sentences.ts';

/** How far a retune is, and what comes after the string being worked on: `1 of 3 moved.` – `Next 1: tighten a semitone.` */
export function progressWords({ coach, to, overview }: Pick<Retuning, 'coach' | 'to' | 'overview'>): {
  readonly done: string;
  readonly next: string;
} {
  const thing = to.pitches.some((strings) => strings.length > 1) ? 'string' : 'course';
  const moved = coach.visited.filter((place) => coach.strings[place]?.skipped === false).length;
  const done =
    coach.phase === 'rechecking'
      ? `${count(coach.queue.length, thing)} to pluck${coach.queue.every((place) => coach.strings[place]?.landedAtSeconds === null) ? '' : ' once more'}.`
      : `${moved} of ${count(coach.visited.length + coach.queue.length, thing)} moved.`;
  if (coach.phase === 'strumming')
    return {
      done: coach.visited.length === 0 ? 'Nothing to turn.' : `${moved} of ${count(coach.visited.length, thing)} moved.`,
      next: 'One strum, then it is done.',
    };
  const isStrumNext = coach.setup.strumCheck === true && coach.strummed === null;
  const next = coach.strings[coach.queue[1] ?? -1];
  if (next === undefined)
    return {
      done,
      next: coach.phase === 'turning' ? (isStrumNext ? 'Then one strum of all.' : 'Then each course once more.') : 'Then it is done.',
    };
  const which = whichString(next.string, to.pitches[next.course]?.length ?? 1, overview.instrument);
  const name = [courseNumber(next.course, to.pitches.length), which].filter((part) => part !== '').join(', ');
  const way = wayOf(next, coach.setup.toleranceCents);
  const togo = centsBetween(hertz(next.aimHertz), hertz(next.presentHertz));
  return { done, next: way === null ? `Next ${name}.` : `Next ${name}: ${way} ${amountWords(togo).replace('about ', '')}.` };
}
