import { courseNumber } from '#shared/instruments/index.ts';
import type { StringVerdict } from '../stores/settling.ts';
import { listed } from '../ui/words.ts';

/** What lists tell of an instrument with a string that slips: which courses, and whether the player has seen all of it. */
export type Slipping = { readonly words: string; readonly isSeen: boolean };

/** What is to be told of an instrument's strings; null where none slips. `courses` is how many it has. */
export function slippingOf(verdicts: readonly StringVerdict[], courses: number): Slipping | null {
  const warned = verdicts.flatMap(({ course, warning }) =>
    warning === null || warning === undefined ? [] : [{ course, isSeen: warning.isSeen }],
  );
  if (warned.length === 0) return null;
  const numbers = [...new Set(warned.map(({ course }) => courseNumber(course, courses)))];
  const isSeen = warned.every((one) => one.isSeen);
  return { words: `${numbers.length === 1 ? 'course' : 'courses'} ${listed(numbers)} slipping${isSeen ? ', seen' : ''}`, isSeen };
}
