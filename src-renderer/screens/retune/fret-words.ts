import { courseNumber } from '#shared/instruments/index.ts';
import { checkFrets } from '#shared/hearing/index.ts';
import { amountWords, capital, centsText } from '../../ui/words.ts';
import type { Fretting } from '../../stores/fretting.ts';

/** One course of the fret check: what was read, and what it may mean. */
export type FretRow = { readonly course: number; readonly number: number; readonly cents: string; readonly sentence: string };

/** What to do next in a fret check. */
export function fretAsked({ course, open, expected, pairs }: Pick<Fretting, 'course' | 'open' | 'expected' | 'pairs'>): string {
  if (course === null) return pairs.length === 0 ? 'Nothing was heard.' : 'Every course was heard.';
  const number = courseNumber(course, expected.length);
  return open === null ? `Course ${number}: pluck it open.` : `Course ${number}: now stop it at the 12th fret, gently, and pluck.`;
}

/** What was read so far, from the player's eye down: `7.9 c sharp`, and a sentence. */
export function fretRows({ pairs, expected }: Pick<Fretting, 'pairs' | 'expected'>): readonly FretRow[] {
  const number = (course: number) => courseNumber(course, expected.length);
  return checkFrets(pairs, number)
    .map(({ course, cents, sigmaCents, verdict, sentence }) => ({
      course,
      number: number(course),
      cents: verdict === 'not-the-12th-fret' ? `${amountWords(cents)} off` : centsWords(cents, sigmaCents),
      sentence: verdictIn(sentence),
    }))
    .sort((a, b) => a.course - b.course);
}

/** What the figure before it does not say already: `Course 4 reads 8 c sharp at the 12th fret: little enough to leave.` → `Little enough to leave.` */
const verdictIn = (sentence: string): string => capital(sentence.replace(/^Course \d+ (?:is |reads .+? at the 12th fret[,:] )/u, ''));

const centsWords = (cents: number, sigmaCents: number): string => `${centsText(cents, sigmaCents)} ${cents < 0 ? 'flat' : 'sharp'}`;
