import { count, courseText, figure } from '../../ui/words.ts';
import type { Row } from './rows.ts';
import { at, verdictWords } from './words.ts';

const from = (cents: number): string =>
  Math.abs(cents) < 0.5 ? 'on pitch' : `${figure(Math.abs(cents))} cents ${cents < 0 ? 'below' : 'above'}`;

/** What a course's chart shows, in words. `now` is in seconds of the epoch. */
export function summaryOf({ number, pitches, verdict, strings: [leading] }: Row, now: number): string {
  const { heard, movedAt, assessment } = leading;
  const [first, last] = [heard[0], heard.at(-1)];
  const start = `Course ${number}, ${courseText(pitches)}: cents from wanted against time. ${verdictWords[verdict]}.`;
  const turned = movedAt === null ? '' : ` Its peg was last turned at ${at(movedAt, now)}.`;
  if (first === undefined || last === undefined) return `${start}${turned} No readings since.`;
  const slips = assessment.slips.length === 0 ? '' : `, ${count(assessment.slips.length, 'slip')}`;
  const span = `${count(heard.length, 'reading')}${slips}: ${from(first.cents)} at ${at(first.atSeconds, now)}, ${from(last.cents)} at ${at(last.atSeconds, now)}.`;
  return `${start}${turned} ${span}`;
}
