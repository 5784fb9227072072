import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  noteLanguages,
  parsePitch,
  parsePitches,
  parsePitchesNear,
  pitchMidi,
  pitchSchemaPattern,
  type SpelledPitch,
  writtenPitchIn,
} from '#shared/music/index.ts';
import { open, pitch } from '../../support/pitches.ts';

const seeded = { seed: 5 };

/** Any pitch that can be stored. */
const pitches = fc
  .record({
    letter: fc.constantFrom(...'CDEFGAB'.split('')),
    sign: fc.constantFrom('', 'b', 'bb', '#', '##'),
    octave: fc.integer({ min: 0, max: 8 }),
  })
  .map(({ letter, sign, octave }) => pitch(`${letter}${sign}${octave}`));

describe('three languages of note names', () => {
  test.each([
    ['english', 'Eb4', 'Eb4'],
    ['english', 'E flat 4', 'Eb4'],
    ['english', 'es4', 'Eb4'],
    ['english', 'fis3', 'F#3'],
    ['english', 'B3', 'B3'],
    ['english', 'F-sharp4', 'F#4'],
    ['german', 'B3', 'Bb3'],
    ['german', 'H3', 'B3'],
    ['german', 'es4', 'Eb4'],
    ['german', 'As4', 'Ab4'],
    ['german', 'Fis4', 'F#4'],
    ['german', 'His3', 'B#3'],
    ['german', 'Ces4', 'Cb4'],
    ['german', 'Heses3', 'Bbb3'],
    ['german', 'E♭4', 'Eb4'],
    ['german', 'B♭3', 'Bb3'],
    ['fixed-do', 'mi♭4', 'Eb4'],
    ['fixed-do', 'Sol4', 'G4'],
    ['fixed-do', 'ré4', 'D4'],
    ['fixed-do', 'fa diesis 4', 'F#4'],
    ['fixed-do', 'si bémol 3', 'Bb3'],
  ] as const)('%s: %s is %s', (language, typed, stored) => {
    expect(parsePitches(typed, language)).toEqual([stored]);
  });

  test.each([
    ['english', 'H4'],
    ['english', 'His4'],
    ['english', 'sol4'],
    ['german', 'Bes4'],
    ['german', 'Aes4'],
    ['german', 'Fises4'],
    ['german', 'B#4'],
    ['fixed-do', 'G4'],
    ['fixed-do', 'so4'],
  ] as const)('%s: %s is no pitch', (language, typed) => {
    expect(parsePitch(typed, language)).toBeNull();
  });

  test.each([
    ['Eb4', 'E♭4', 'Es4', 'Mi♭4'],
    ['B3', 'B3', 'H3', 'Si3'],
    ['Bb3', 'B♭3', 'B3', 'Si♭3'],
    ['Ab4', 'A♭4', 'As4', 'La♭4'],
    ['F#4', 'F♯4', 'Fis4', 'Fa♯4'],
  ])('%s is written %s, %s, %s', (stored, ...written) => {
    expect(noteLanguages.map((language) => writtenPitchIn(stored, language))).toEqual(written);
  });

  test.each(noteLanguages)('what is written in %s is read back as it was', (language) => {
    fc.assert(
      fc.property(pitches, (one) => parsePitch(writtenPitchIn(one, language), language) === one),
      seeded,
    );
  });

  test.each(noteLanguages)('whatever is typed in %s is a stored pitch or the word that is none', (language) => {
    const home = open('G4 C4 E4 A4').flat();
    const typed = fc.oneof(fc.string(), fc.string({ unit: fc.constantFrom(...'abcdefghisolmr#♭ 4-9,'.split('')) }));
    fc.assert(
      fc.property(typed, (text) => {
        for (const read of [parsePitches(text, language), parsePitchesNear(text, home, language)]) {
          if ('notAPitch' in read) expect(read.notAPitch).not.toBe('');
          else expect(read.every((one) => pitchSchemaPattern.test(one))).toBe(true);
        }
      }),
      seeded,
    );
  });
});

describe('text that nobody types', () => {
  const long = `E${' '.repeat(1_000_000)}x`;

  test('is no pitch, however long it is', () => {
    expect(parsePitch(long)).toBeNull();
    for (const read of [
      parsePitches(long),
      parsePitchesNear(long, open('G4 C4').flat()),
      parsePitchesNear('b'.repeat(350), open('G4 C4').flat()),
    ]) {
      expect(read).toHaveProperty('notAPitch');
    }
  });
});

describe('rows without octaves take them from the home', () => {
  const near = (text: string, home: string, language?: 'english' | 'german' | 'fixed-do') => {
    const read = parsePitchesNear(text, open(home).flat(), language);
    return 'notAPitch' in read ? read : read.join(' ');
  };
  const highG = 'G4 C4 E4 A4';
  const lowG = 'G3 C4 E4 A4';

  test.each([
    ['G C E A', highG, 'G4 C4 E4 A4'],
    ['G C E A', lowG, 'G3 C4 E4 A4'],
    ['g c e♭ g', highG, 'G4 C4 Eb4 G4'],
    ['G Bb Eb Bb', highG, 'G4 Bb3 Eb4 Bb4'],
    ['F4 C E A', highG, 'F4 C4 E4 A4'],
    ['D G B E', 'D3 G3 B3 E4', 'D3 G3 B3 E4'],
    ['DADGAD', 'E2 A2 D3 G3 B3 E4', 'D2 A2 D3 G3 A3 D4'],
    ['dgbe', 'D3 G3 B3 E4', 'D3 G3 B3 E4'],
    ['GBbEbBb', highG, 'G4 Bb3 Eb4 Bb4'],
    ['aDF#B', highG, 'A4 D4 F#4 B4'],
    ['G4C4E4A4', lowG, 'G4 C4 E4 A4'],
  ])('%s on %s is %s', (typed, home, expected) => {
    expect(near(typed, home)).toBe(expected);
  });

  test.each([
    ['gCEA', lowG, 'G4 C4 E4 A4'],
    ['g C E A', lowG, 'G4 C4 E4 A4'],
    ['dGBE', 'D3 G3 B3 E4', 'D4 G3 B3 E4'],
    ['gDGBD', 'G3 D3 G3 B3 D4', 'G3 D3 G3 B3 D4'],
  ])('a small first letter puts the course above the one beside it: %s on %s is %s', (typed, home, expected) => {
    expect(near(typed, home)).toBe(expected);
  });

  test('the other languages too', () => {
    expect(near('dGHE', 'D3 G3 B3 E4', 'german')).toBe('D4 G3 B3 E4');
    expect(near('GCEsAs', highG, 'german')).toBe('G4 C4 Eb4 Ab4');
    expect(near('sol do mi la', lowG, 'fixed-do')).toBe('G3 C4 E4 A4');
    expect(near('SolDoMi♭Sol', highG, 'fixed-do')).toBe('G4 C4 Eb4 G4');
  });

  test('the word that is no pitch is named', () => {
    expect(near('G C H A', highG)).toEqual({ notAPitch: 'H' });
    expect(near('GCEAX', highG)).toEqual({ notAPitch: 'GCEAX' });
  });

  test('no course lands further than a tritone from its home', () => {
    const homes = fc.array(pitches, { minLength: 1, maxLength: 6 });
    fc.assert(
      fc.property(homes, fc.constantFrom('C', 'F#', 'Bb', 'E'), (home: readonly SpelledPitch[], name) => {
        const read = parsePitchesNear(home.map(() => name).join(' '), home);
        if ('notAPitch' in read) throw new Error(read.notAPitch);
        for (const [course, one] of read.entries()) expect(Math.abs(pitchMidi(one) - pitchMidi(home[course]!))).toBeLessThanOrEqual(6);
      }),
      seeded,
    );
  });
});
