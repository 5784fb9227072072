import { describe, expect, test } from 'vitest';
import { pitchHertz, pitchMidi } from '#shared/music/index.ts';
import { centsBetween, hertz, midi, midiToHertz } from '#shared/units/index.ts';
import { pitch } from '../support/pitches.ts';

describe('ISO 16:1975', () => {
  test('the standard tuning frequency, A in the treble stave, is 440 Hz', () => {
    expect(pitchHertz(pitch('A4'), hertz(440))).toBe(440);
  });
});

describe('MIDI Tuning Standard (MIDI Association, 1992/1999), frequency table', () => {
  // Rows of the standard's own table, "xx 00 00" = equal temperament; two of its printed examples are wrong and stand here corrected:
  // 00 00 00 = 8.1758 (not 8.2104 for 00 00 01) and 7F 00 00 = 12543.854 (not 12543.88).
  test.each([
    [0, 8.1758],
    [1, 8.662],
    [12, 16.3516],
    [60, 261.6256],
    [61, 277.1826],
    [68, 415.3047],
    [69, 440],
    [120, 8372.0181],
    [127, 12543.854],
  ])('note %d is %d Hz', (number, expected) => {
    expect(midiToHertz(midi(number), hertz(440))).toBeCloseTo(expected, 3);
  });
});

describe('OpenStax University Physics 1 (CC BY), sec. 16.3', () => {
  test('the high E string of a guitar is 329.63 Hz; a later problem that says 393.88 Hz is about a G', () => {
    expect(pitchHertz(pitch('E4'), hertz(440))).toBeCloseTo(329.63, 2);
    expect(Math.abs(centsBetween(hertz(393.88), pitchHertz(pitch('G4'), hertz(440))))).toBeLessThan(10);
  });
});

describe('equal temperament', () => {
  test('other references in cents from 440 (computed from 1200·log2)', () => {
    expect(centsBetween(hertz(415), hertz(440))).toBeCloseTo(-101.27, 2);
    expect(centsBetween(hertz(432), hertz(440))).toBeCloseTo(-31.77, 2);
    expect(centsBetween(hertz(443), hertz(440))).toBeCloseTo(11.76, 2);
  });

  test.each([
    ['G4 C4 E4 A4', [67, 60, 64, 69]],
    ['G3 C4 E4 A4', [55, 60, 64, 69]],
    ['D3 G3 B3 E4', [50, 55, 59, 64]],
    ['A4 D4 F#4 B4', [69, 62, 66, 71]],
    ['E2 A2 D3 G3 B3 E4', [40, 45, 50, 55, 59, 64]],
  ])('%s has the MIDI numbers of the published string tunings (LilyPond 2.24.1 and MuseScore 3.2.3 data)', (row, numbers) => {
    expect(row.split(' ').map((name) => pitchMidi(pitch(name)))).toEqual(numbers);
  });
});
