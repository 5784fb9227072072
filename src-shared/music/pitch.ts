import { type Hertz, type Midi, midi, midiToHertz } from '#shared/units/index.ts';
import { type NoteLanguage, plainSigns, readName, writeName } from './names.ts';

declare const spelled: unique symbol;

/** A pitch as the music spells it, in the form `Eb4`: letter, `b`/`#` (two at most), octave of the letter (C4 = middle C). */
export type SpelledPitch = string & { readonly [spelled]: true };

/** The stored form of a spelled pitch. */
export const pitchSchemaPattern = /^[A-G](?:b{1,2}|#{1,2})?-?\d$/;

/** Longer words and rows are read by nobody; hostile ones would keep the expressions busy. */
const longestPitch = 40;
const longestRow = 400;

/**
 * Reads one pitch as people type it, its octave included: `Eb4`, `E♭4`, `d#4`, `es4`. Octaves are scientific in every language (C4 = middle C).
 * Null where it is none. `parsePitch('e♭4')` → `Eb4`; `parsePitch('H4')` → null; `parsePitch('H4', 'german')` → `B4`.
 */
export function parsePitch(text: string, language: NoteLanguage = 'english'): SpelledPitch | null {
  if (text.length > longestPitch) return null;
  // What is stored is read again thousands of times.
  if (language === 'english' && pitchSchemaPattern.test(text)) return text as SpelledPitch;
  const [, typed, octave] = /^(.*?)\s*(-?\d)$/u.exec(text.trim()) ?? [];
  const name = typed === undefined || octave === undefined ? null : readName(typed, language);
  return name === null || octave === undefined ? null : pitchOf(name, octave);
}

/** The pitch of an English name and an octave, or null where it cannot be stored. */
function pitchOf(name: string, octave: number | string): SpelledPitch | null {
  const pitch = `${name}${octave}`;
  return pitchSchemaPattern.test(pitch) ? (pitch as SpelledPitch) : null;
}

/** The words of a row, signs in ASCII; an octave that stands apart belongs to the word before it. A row that is too long is one word. */
export const rowWords = (text: string): readonly string[] =>
  text.length > longestRow ? [`${text.slice(0, longestPitch)}…`] : wordsOf(text);

const wordsOf = (text: string): readonly string[] =>
  plainSigns(text)
    .replace(/\s+(?=-?\d(?:[\s,;]|$))/gu, '')
    .split(/[\s,;]+/u)
    .filter((word) => word !== '');

/**
 * Reads a row of pitches parted by blanks, commas or semicolons, from the player's eye down.
 * `parsePitches('G4 C4 Eb4 G4')` → four pitches; the first word that is no pitch is returned as `{ notAPitch }`.
 */
export function parsePitches(text: string, language: NoteLanguage = 'english'): readonly SpelledPitch[] | { readonly notAPitch: string } {
  const words = rowWords(text);
  const pitches: SpelledPitch[] = [];
  for (const word of words) {
    const pitch = parsePitch(word, language);
    if (pitch === null) return { notAPitch: word };
    pitches.push(pitch);
  }
  return pitches;
}

/**
 * The pitch with a MIDI number under a given English name; the octave is that of the letter. Null where the name is another pitch class
 * or its octave has more than one figure. `pitchNamed(59, 'Cb')` → `Cb4`.
 */
export function pitchNamed(number: number, name: string): SpelledPitch | null {
  if (!pitchSchemaPattern.test(`${name}4`)) return null;
  const octaves = (number - numberOf(name, 4)) / 12;
  return Number.isInteger(octaves) ? pitchOf(name, 4 + octaves) : null;
}

const naturals: Readonly<Record<string, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

/** MIDI number of a name in an octave, which is that of the letter. */
const numberOf = (name: string, octave: number): number =>
  12 * (octave + 1) + (naturals[name.charAt(0)] ?? Number.NaN) + (name.charAt(1) === 'b' ? 1 - name.length : name.length - 1);

/** The numbers of the pitches that were asked for: there are some hundred of them, and a large library asks for each a thousand times. */
const numbers = new Map<string, Midi>();

/** MIDI number, A4 = 69; the octave belongs to the letter, so `B#3` is 60 and `Cb4` is 59. Throws RangeError for what is no pitch. */
export function pitchMidi(pitch: SpelledPitch): Midi {
  const known = numbers.get(pitch);
  if (known !== undefined) return known;
  if (!pitchSchemaPattern.test(pitch)) throw new RangeError(`not a spelled pitch: ${pitch}`);
  const name = pitchClass(pitch);
  const number = midi(numberOf(name, Number(pitch.slice(name.length))));
  numbers.set(pitch, number);
  return number;
}

/** Frequency in equal temperament at the given reference pitch of A4. `pitchHertz('A4', hertz(440))` → 440. */
export const pitchHertz = (pitch: SpelledPitch, reference: Hertz): Hertz => midiToHertz(pitchMidi(pitch), reference);

/** The pitch without its octave: `Eb4` → `Eb`. */
export const pitchClass = (pitch: SpelledPitch): string => pitch.slice(0, pitch.charAt(pitch.length - 2) === '-' ? -2 : -1);

/** A pitch, or a name without octave, with true signs, for people to read: `Eb4` → `E♭4`. */
export const writtenPitch = (pitch: string): string => writtenPitchIn(pitch, 'english');

/** The same in a language: `writtenPitchIn('Eb4', 'german')` → `Es4`; fixed do → `Mi♭4`. */
export function writtenPitchIn(pitch: string, language: NoteLanguage): string {
  const name = pitch.replace(/-?\d$/u, '');
  return writeName(name, language) + pitch.slice(name.length);
}
