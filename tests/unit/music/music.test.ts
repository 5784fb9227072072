import { describe, expect, test } from 'vitest';
import {
  distance,
  openChord,
  parsePitch,
  parsePitches,
  pitchHertz,
  pitchMidi,
  semitonesBetween,
  transpose,
  writtenInterval,
  writtenPitch,
} from '#shared/music/index.ts';
import { hertz } from '#shared/units/index.ts';
import { open, pitch } from '../../support/pitches.ts';

describe('a pitch keeps the spelling that it was given', () => {
  test.each([
    ['Eb4', 'Eb4'],
    ['E♭4', 'Eb4'],
    [' eb4 ', 'Eb4'],
    ['d#4', 'D#4'],
    ['F♯3', 'F#3'],
    ['B𝄫3', 'Bbb3'],
    ['C4', 'C4'],
  ])('%s is read as %s', (typed, stored) => {
    expect(parsePitch(typed)).toBe(stored);
  });

  test.each(['', 'H4', 'E', 'E♭', 'Ebb', 'E##b4', '4', 'E44x', 'Eb10'])('%j is no pitch', (typed) => {
    expect(parsePitch(typed)).toBeNull();
  });

  test('E♭ is written with the true sign, and never turns into D♯', () => {
    expect(writtenPitch(pitch('Eb4'))).toBe('E♭4');
    expect(pitchMidi(pitch('Eb4'))).toBe(pitchMidi(pitch('D#4')));
    expect(parsePitch('Eb4')).not.toBe(parsePitch('D#4'));
  });

  test('the octave belongs to the letter', () => {
    expect([pitchMidi(pitch('B#3')), pitchMidi(pitch('C4')), pitchMidi(pitch('Cb4')), pitchMidi(pitch('B3'))]).toEqual([60, 60, 59, 59]);
  });

  test('a row of pitches names the word that is none', () => {
    expect(parsePitches('G4, C4 E4 A4')).toEqual(['G4', 'C4', 'E4', 'A4']);
    expect(parsePitches('G4 C4 X4')).toEqual({ notAPitch: 'X4' });
  });

  test('tonight’s reference moves every pitch alike', () => {
    expect(pitchHertz(pitch('A4'), hertz(442))).toBe(442);
    expect(pitchHertz(pitch('A3'), hertz(442))).toBeCloseTo(221, 9);
  });
});

describe('moves are spelled intervals', () => {
  test.each([
    ['E4', 'Eb4', '-1A', 'down an augmented unison', -1],
    ['E4', 'D#4', '-2m', 'down a minor second', -1],
    ['A4', 'Bb4', '2m', 'up a minor second', 1],
    ['C4', 'Bb3', '-2M', 'down a major second', -2],
    ['A4', 'A4', '1P', 'stays', 0],
    ['G4', 'G3', '-8P', 'down a perfect octave', -12],
    ['E4', 'E#4', '1A', 'up an augmented unison', 1],
    ['Cb2', 'B1', '-2d', 'down a diminished second', 0],
    ['B3', 'Cb4', '2d', 'up a diminished second', 0],
    ['G3', 'B4', '10M', 'up a major 10th', 16],
    ['D3', 'Ab2', '-4A', 'down an augmented fourth', -6],
  ])('%s to %s is %s: %s', (from, to, interval, words, semitones) => {
    expect(distance(pitch(from), pitch(to))).toBe(interval);
    expect(writtenInterval(distance(pitch(from), pitch(to)))).toBe(words);
    expect(semitonesBetween(pitch(from), pitch(to))).toBe(semitones);
  });

  test('lowering a letter stays on the letter when it is carried to another string', () => {
    expect(transpose(pitch('B3'), distance(pitch('E4'), pitch('Eb4')))).toBe('Bb3');
    expect(transpose(pitch('B3'), distance(pitch('E4'), pitch('D#4')))).toBe('A#3');
  });
});

describe('what chord open courses make', () => {
  test.each([
    ['G4 C4 E4 A4', 'C6'],
    ['G4 C4 E4 G4', 'C major'],
    ['G4 C4 Eb4 G4', 'C minor'],
    ['G4 Bb3 Eb4 Bb4', 'E♭ major'],
    ['G4 C4 G4 C5', 'C, no third'],
    ['F4 Bb3 D4 G4', 'B♭6'],
    ['D3 G3 B3 D4', 'G major'],
    ['D2 A2 D3 F#3 A3 D4', 'D major'],
    ['D2 A2 D3 G3 A3 D4', 'Dsus4'],
    ['D3 A3 E4 B4 F#5', 'D69'],
    ['B3 F#3 A3 E4 D3', 'D69'],
  ])('%s makes %s', (row, chord) => {
    expect(openChord(open(row).flat())).toBe(chord);
  });

  test('the order of the strings does not matter on a re-entrant instrument', () => {
    expect(openChord(open('Eb4 G4 C4 G4').flat())).toBe('C minor');
  });

  test('one pitch in octaves is no chord', () => {
    expect(openChord(open('G3 G4').flat())).toBeNull();
  });
});
