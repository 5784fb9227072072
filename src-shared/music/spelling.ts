import { Scale } from 'tonal';
import { pitchNamed, type SpelledPitch } from './pitch.ts';

/** Scales that a key may follow. */
export const modes = ['major', 'minor', 'harmonic minor', 'dorian', 'phrygian', 'lydian', 'mixolydian', 'locrian'] as const;
export type Mode = (typeof modes)[number];

/** A key: an English name without octave, and its scale. */
export type Key = { readonly tonic: string; readonly mode: Mode };

/** The seven notes of a key, one letter a degree. Throws RangeError where there is no such key. `keyNotes({ tonic: 'C', mode: 'minor' })` → C D Eb F G Ab Bb. */
export function keyNotes({ tonic, mode }: Key): readonly string[] {
  const { notes } = Scale.get(`${tonic} ${mode}`);
  if (notes.length !== 7) throw new RangeError(`no key of ${tonic} ${mode}`);
  return notes;
}

const naturals: Readonly<Record<string, number>> = { F: -1, C: 0, G: 1, D: 2, A: 3, E: 4, B: 5 };

/** Place on the line of fifths, C = 0; each flat seven to the left, each sharp seven to the right. */
const fifth = (name: string): number => (naturals[name.charAt(0)] ?? 0) + 7 * (name.split('#').length - name.split('b').length);

const classOf = (name: string): number => (((7 * fifth(name)) % 12) + 12) % 12;

export const flatNames = ['C', 'Db', 'D', 'Eb', 'E', 'F', 'Gb', 'G', 'Ab', 'A', 'Bb', 'B'] as const;
export const sharpNames = ['C', 'C#', 'D', 'D#', 'E', 'F', 'F#', 'G', 'G#', 'A', 'A#', 'B'] as const;
/** The commoner of the two where nothing else decides: flats for E♭ A♭ B♭, sharps for F♯ C♯. */
const commonNames = ['C', 'C#', 'D', 'Eb', 'E', 'F', 'F#', 'G', 'Ab', 'A', 'Bb', 'B'] as const;

/**
 * Spells MIDI numbers in a key: notes of the scale as it has them, others in the key's own direction (flat keys flats), the common way where
 * the key has no signs. `spellInKey([63], { tonic: 'C', mode: 'minor' })` → `Eb4`. Throws RangeError for a number that has no stored form.
 */
export function spellInKey(numbers: readonly number[], key: Key): readonly SpelledPitch[] {
  const notes = keyNotes(key);
  const lean = notes.reduce((sum, name) => sum + (name.includes('#') ? 1 : 0) - (name.includes('b') ? 1 : 0), 0);
  const others = lean < 0 ? flatNames : lean > 0 ? sharpNames : commonNames;
  return numbers.map((number) => named(number, notes.find((name) => classOf(name) === classIn(number)) ?? others[classIn(number)] ?? 'C'));
}

/**
 * Spells open strings that have no key: all flats or all sharps, whichever keeps them closer together on the line of fifths; where both do
 * alike, the common names vote (flats for E♭ A♭ B♭, sharps for F♯ C♯). Throws RangeError for a number that has no stored form.
 * `spellTogether([67, 60, 63, 67])` → `G4 C4 Eb4 G4`.
 */
export function spellTogether(numbers: readonly number[]): readonly SpelledPitch[] {
  const span = (names: readonly string[]): number => {
    const places = numbers.map((number) => fifth(names[classIn(number)] ?? 'C'));
    return Math.max(...places) - Math.min(...places);
  };
  const votes = numbers.reduce((sum, number) => sum + fifthSide(commonNames[classIn(number)] ?? 'C'), 0);
  const closer = span(sharpNames) - span(flatNames);
  const names = closer < 0 || (closer === 0 && votes > 0) ? sharpNames : flatNames;
  return numbers.map((number) => named(number, names[classIn(number)] ?? 'C'));
}

const fifthSide = (name: string): number => (name.includes('#') ? 1 : name.includes('b') ? -1 : 0);

const classIn = (number: number): number => ((number % 12) + 12) % 12;

function named(number: number, name: string): SpelledPitch {
  const pitch = pitchNamed(number, name);
  if (pitch === null) throw new RangeError(`no pitch has the MIDI number ${number}; it must be whole, from −12 to 131`);
  return pitch;
}
