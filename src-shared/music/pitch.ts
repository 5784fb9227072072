import { Note } from 'tonal';
import { type Hertz, type Midi, midi, midiToHertz } from '#shared/units/index.ts';

declare const spelled: unique symbol;

/** A pitch as the music spells it, in the form `Eb4`: letter, `b`/`#` (two at most), octave of the letter (C4 = middle C). */
export type SpelledPitch = string & { readonly [spelled]: true };

/** The stored form of a spelled pitch. */
export const pitchSchemaPattern = /^[A-G](?:b{1,2}|#{1,2})?-?\d$/;

const signs: readonly (readonly [RegExp, string])[] = [
  [/𝄫/gu, 'bb'],
  [/𝄪/gu, '##'],
  [/♭/gu, 'b'],
  [/♯/gu, '#'],
  [/♮/gu, ''],
];

/**
 * Reads one pitch as people type it, its octave included: `Eb4`, `E♭4`, `d#4`. Null where it is none.
 * `parsePitch('e♭4')` → `Eb4`; `parsePitch('H4')` → null.
 */
export function parsePitch(text: string): SpelledPitch | null {
  const plain = signs.reduce((soFar, [sign, letter]) => soFar.replace(sign, letter), text.trim());
  const name = plain.charAt(0).toUpperCase() + plain.slice(1).toLowerCase();
  return pitchSchemaPattern.test(name) && !Note.get(name).empty ? (name as SpelledPitch) : null;
}

/**
 * Reads a row of pitches parted by blanks, commas or hyphens, from the player's eye down.
 * `parsePitches('G4 C4 Eb4 G4')` → four pitches; the first word that is no pitch is returned as `{ notAPitch }`.
 */
export function parsePitches(text: string): readonly SpelledPitch[] | { readonly notAPitch: string } {
  const words = text.split(/[\s,;]+/u).filter((word) => word !== '');
  const pitches: SpelledPitch[] = [];
  for (const word of words) {
    const pitch = parsePitch(word);
    if (pitch === null) return { notAPitch: word };
    pitches.push(pitch);
  }
  return pitches;
}

/** MIDI number, A4 = 69; the octave belongs to the letter, so `B#3` is 60 and `Cb4` is 59. */
export function pitchMidi(pitch: SpelledPitch): Midi {
  const number = Note.midi(pitch);
  if (number === null || number === undefined) throw new RangeError(`not a spelled pitch: ${pitch}`);
  return midi(number);
}

/** Frequency in equal temperament at the given reference pitch of A4. `pitchHertz('A4', hertz(440))` → 440. */
export const pitchHertz = (pitch: SpelledPitch, reference: Hertz): Hertz => midiToHertz(pitchMidi(pitch), reference);

/** The pitch without its octave: `Eb4` → `Eb`. */
export const pitchClass = (pitch: SpelledPitch): string => pitch.replace(/-?\d$/u, '');

/** A pitch, or a name without octave, with true signs, for people to read: `Eb4` → `E♭4`. */
export const writtenPitch = (pitch: string): string => pitch.charAt(0) + pitch.slice(1).replaceAll('b', '♭').replaceAll('#', '♯');
