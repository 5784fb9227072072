export { courseText, pitchText } from './note-names.ts';

/** A number with a true minus and so many decimals: `−1.5`. */
export const figure = (value: number, decimals = 0): string => {
  const text = value.toFixed(decimals);
  return text.replace(/^-(0(?:\.0+)?)$/u, '$1').replace('-', '−');
};

/** Cents for people: one decimal where the uncertainty is under 0.3, else whole; never nought. `centsText(36.6, 1)` → `37 c`, `centsText(0.02, 0.1)` → `under 0.1 c`. */
export const centsText = (cents: number, sigmaCents: number): string => {
  const decimals = sigmaCents < 0.3 && Math.abs(cents) < 10 ? 1 : 0;
  const text = figure(Math.abs(cents), decimals);
  return Number(text) === 0 ? `under ${decimals === 1 ? '0.1' : '1'} c` : `${text} c`;
};

const parts = [
  [0.05, 'a twentieth of a semitone'],
  [0.1, 'a tenth of a semitone'],
  [0.2, 'a fifth of a semitone'],
  [0.25, 'a quarter of a semitone'],
  [1 / 3, 'a third of a semitone'],
  [0.5, 'half a semitone'],
  [2 / 3, 'two thirds of a semitone'],
  [0.75, 'three quarters of a semitone'],
  [1, 'a semitone'],
  [1.5, 'a semitone and a half'],
  [2, 'a tone'],
  [2.5, 'two semitones and a half'],
  [3, 'a tone and a half'],
  [4, 'two tones'],
  [5, 'a fourth'],
  [7, 'a fifth'],
  [12, 'an octave'],
] as const;

/** An amount of pitch in words, without its direction: `about a third of a semitone`; under 4 cents `a hair`. */
export function amountWords(cents: number): string {
  const semitones = Math.abs(cents) / 100;
  if (semitones < 0.04) return 'a hair';
  const [size, words] = parts.reduce((best, part) =>
    Math.abs(Math.log(part[0] / semitones)) < Math.abs(Math.log(best[0] / semitones)) ? part : best,
  );
  return Math.abs(size - semitones) < 0.02 * size ? words : `about ${words}`;
}

/** A number of semitones with halves: `3½`, `½`, `11`. */
export function halves(semitones: number): string {
  const rounded = Math.round(Math.abs(semitones) * 2) / 2;
  const whole = Math.floor(rounded);
  const half = rounded > whole ? '½' : '';
  return `${semitones < 0 && rounded > 0 ? '−' : ''}${whole === 0 && half !== '' ? '' : whole}${half}`;
}

/** `1 move`, `3 moves`. */
export const count = (number: number, one: string, many = `${one}s`): string => `${number} ${number === 1 ? one : many}`;

const ordinals = ['first', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth', 'ninth', 'tenth', 'eleventh', 'twelfth'];
/** `ordinal(0)` → `first`. */
export const ordinal = (index: number): string => ordinals[index] ?? `${index + 1}th`;

/** `4, 3 and 1`. */
export const listed = (items: readonly (string | number)[]): string =>
  items.length < 2 ? items.join('') : `${items.slice(0, -1).join(', ')} and ${items.at(-1)}`;

/** With a capital at its beginning: `Baritone`. */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
