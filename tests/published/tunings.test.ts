import { describe, expect, test } from 'vitest';
import { pitchMidi } from '#shared/music/index.ts';
import { carry, tuningPresets } from '#shared/tunings/index.ts';
import { open } from '../support/pitches.ts';

const preset = (id: string) => tuningPresets.find((tuning) => tuning.id === id)!;

// MIDI numbers of the pitches from the player's eye down. L = LilyPond 2.24.1 string tunings, P = python-mingus tunings.
describe('starter tunings against published ones', () => {
  test.each([
    ['guitar-drop-d', '38 45 50 55 59 64', 'L guitar-drop-d, P'],
    ['guitar-open-d-sus4', '38 45 50 55 57 62', 'L guitar-dadgad, P'],
    ['guitar-open-g', '38 43 50 55 59 62', 'L guitar-open-g, P'],
    ['guitar-open-d', '38 45 50 54 57 62', 'L guitar-open-d'],
    ['guitar-drop-c', '36 43 48 53 57 62', 'L guitar-drop-c'],
    ['guitar-course-3-down', '40 45 50 54 59 64', 'L guitar-lute'],
    ['guitar-open-c', '36 43 48 55 60 64', 'P, whose second string C3 is an octave too low'],
    ['banjo-home', '67 50 55 59 62', 'L banjo-open-g, P'],
    ['banjo-double-c', '67 48 55 60 62', 'L banjo-double-c'],
    ['banjo-course-4-down', '67 48 55 59 62', 'L banjo-c'],
    ['banjo-open-g-sus4', '67 50 55 60 62', 'L banjo-modal'],
    ['banjo-double-d', '69 50 57 62 64', 'double C two semitones up; L banjo-double-d has G on the third string by mistake'],
    ['ukulele-open-c', '67 60 64 67', 'from memory'],
    ['ukulele-open-c-minor', '67 60 63 67', 'computed: E flat, never D sharp'],
    ['ukulele-open-f', '69 60 65 69', 'from memory'],
  ])('%s is %s (%s)', (id, numbers) => {
    expect(preset(id).pitches.map(pitchMidi).join(' ')).toBe(numbers);
  });

  test('C minor is spelled with E flat', () => {
    expect(preset('ukulele-open-c-minor').pitches).toEqual(['G4', 'C4', 'Eb4', 'G4']);
  });

  test('the double D of the banjo is its double C, every string a tone higher', () => {
    const [c, d] = [preset('banjo-double-c').pitches.map(pitchMidi), preset('banjo-double-d').pitches.map(pitchMidi)];
    expect(d.map((note, string) => note - c[string]!)).toEqual([2, 2, 2, 2, 2]);
  });
});

describe('four strings a fourth lower (encyclopedia article on the ukulele: the baritone is tuned like the top four strings of a guitar)', () => {
  const baritone = open('D3 G3 B3 E4');

  test.each(tuningPresets.filter(({ id }) => id.startsWith('ukulele-')).map((tuning) => [tuning.id, tuning] as const))(
    '%s has the same shapes on the baritone: every course but the re-entrant one a fourth lower',
    (_, { pitches, home }) => {
      const row = { courses: pitches.map((pitch) => ({ pitches: [pitch] })), home: home.map((pitch) => [pitch]) };
      const carried = carry(row, baritone)!;
      expect(carried.sameShapes).toBe(true);
      expect(carried.pitches.flat().map((pitch, course) => pitchMidi(pitch) - pitchMidi(pitches[course]!))).toEqual([-17, -5, -5, -5]);
    },
  );
});
