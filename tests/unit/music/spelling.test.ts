import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { distance, keyNotes, modes, pitchMidi, spellInKey, spellTogether, transpose } from '#shared/music/index.ts';
import { open, pitch } from '../../support/pitches.ts';

const seeded = { seed: 5 };

const numbers = (row: string) => open(row).flat().map(pitchMidi);

describe('spelling by key', () => {
  test.each([
    ['C', 'minor', 'G4 C4 D#4 G#4 A#4', 'G4 C4 Eb4 Ab4 Bb4'],
    ['E', 'major', 'E2 B2 E3 Ab3 B3 E4', 'E2 B2 E3 G#3 B3 E4'],
    ['Gb', 'major', 'B3 F#4', 'Cb4 Gb4'],
    ['F#', 'major', 'F4 C4', 'E#4 C4'],
    ['A', 'harmonic minor', 'Ab4 A4', 'G#4 A4'],
    ['F', 'major', 'D#4', 'Eb4'],
    ['D', 'major', 'Eb4', 'D#4'],
    ['C', 'major', 'D#4 Gb4 Db4 A#4', 'Eb4 F#4 C#4 Bb4'],
  ] as const)('%s %s spells %s as %s', (tonic, mode, given, expected) => {
    expect(spellInKey(numbers(given), { tonic, mode }).join(' ')).toBe(expected);
  });

  test.each(modes)('every %s key has one letter a degree and spells its own notes as it has them', (mode) => {
    for (const tonic of ['C', 'G', 'D', 'A', 'E', 'F', 'Bb', 'Eb', 'B']) {
      const notes = keyNotes({ tonic, mode });
      expect(new Set(notes.map((name) => name.charAt(0))).size).toBe(7);
      const own = notes.map((name) => pitch(`${name}4`));
      expect(spellInKey(own.map(pitchMidi), { tonic, mode })).toEqual(own);
    }
  });

  test('a key that does not exist is refused', () => {
    expect(() => keyNotes({ tonic: 'H', mode: 'major' })).toThrow(RangeError);
  });
});

describe('spelling open strings without a key', () => {
  test.each([
    ['G4 C4 D#4 G4', 'G4 C4 Eb4 G4'],
    ['D2 A2 D3 Gb3 A3 D4', 'D2 A2 D3 F#3 A3 D4'],
    ['E2 B2 E3 Ab3 B3 E4', 'E2 B2 E3 G#3 B3 E4'],
    ['G4 A#3 D#4 A#4', 'G4 Bb3 Eb4 Bb4'],
    ['A4 D4 Gb4 B4', 'A4 D4 F#4 B4'],
    ['D#4', 'Eb4'],
    ['Gb4', 'F#4'],
    ['Db4', 'C#4'],
    ['G#4', 'Ab4'],
  ])('%s becomes %s', (given, expected) => {
    expect(spellTogether(numbers(given)).join(' ')).toBe(expected);
  });

  test('sounds what it was given and never mixes flats and sharps', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 28, max: 88 }), { minLength: 1, maxLength: 8 }), (given) => {
        const spelled = spellTogether(given);
        expect(spelled.map(pitchMidi)).toEqual(given);
        expect(spelled.join('').includes('b') && spelled.join('').includes('#')).toBe(false);
      }),
      seeded,
    );
  });

  test('a move there and back ends on the pitch that it began on', () => {
    const plain = fc
      .tuple(fc.constantFrom(...'CDEFGAB'.split('')), fc.constantFrom('', 'b', '#'), fc.integer({ min: 1, max: 6 }))
      .map((parts) => pitch(parts.join('')));
    fc.assert(
      fc.property(plain, plain, (from, to) => {
        expect(transpose(from, distance(from, to))).toBe(to);
        expect(pitchMidi(transpose(transpose(from, distance(from, to)), distance(to, from)))).toBe(pitchMidi(from));
      }),
      seeded,
    );
  });
});
