import { listed } from '../../ui/words.ts';
import type { Line } from './lines.ts';

/** `Course 3`, `Courses 3 and 1`. */
export const coursesWords = (numbers: readonly number[]): string => `${numbers.length === 1 ? 'Course' : 'Courses'} ${listed(numbers)}`;

/** `Courses 3 and 1 come close to breaking`; where the figures say that a string cannot carry its pitch, `Course 1 would break`. */
export function breakTitle(lines: readonly Pick<Line, 'number' | 'after'>[]): string {
  const broken = lines.filter(({ after }) => (after.breakShare ?? 0) >= 1);
  if (broken.length > 0) return `${coursesWords(broken.map(({ number }) => number))} would break`;
  return `${coursesWords(lines.map(({ number }) => number))} ${lines.length === 1 ? 'comes' : 'come'} close to breaking`;
}
