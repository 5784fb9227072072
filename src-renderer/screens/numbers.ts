/** A number as people type it: with a point or a comma, a hyphen or a true minus. Null where it is none; an empty line is none. `0,57` → 0.57. */
export function readNumber(text: string): number | null {
  const plain = text.trim().replace(',', '.').replace('−', '-');
  return /^[+-]?(?:\d+\.?\d*|\.\d+)$/u.test(plain) ? Number(plain) : null;
}

const names = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten', 'eleven', 'twelve'];
/** A small count in letters: `six`; from 13 in figures. */
export const inLetters = (count: number): string => names[count] ?? String(count);
