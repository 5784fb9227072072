import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { describe, expect, test } from 'vitest';
import { byEarSheet } from '#shared/exchange/index.ts';
import { pitchMidi } from '#shared/music/index.ts';
import type { OpenPitches } from '#shared/tunings/index.ts';
import { open } from '../../support/pitches.ts';

const sentences = (from: string, to: string, frets = 18): readonly string[] =>
  byEarSheet(open(from), open(to), frets).map(({ sentence }) => sentence);

describe('the by-ear sheet', () => {
  test('matches a lowered course with the fret of one that stays', () => {
    expect(sentences('G4 C4 E4 A4', 'G4 C4 Eb4 A4')).toEqual(['Lower course 2 until it matches course 3 at the 3rd fret.']);
  });

  test('counts the fret on the low neighbour of a re-entrant course, not on the course itself', () => {
    expect(sentences('G4 C4 E4 A4', 'F4 C4 E4 A4')).toEqual(['Lower course 4 until it matches course 2 at the 1st fret.']);
    expect(sentences('G4 C4 E4 A4', 'G4 C4 E4 G4')).toEqual(['Lower course 1 until it matches course 4, both open.']);
  });

  test('holds the moved course where it ends below every course that is right', () => {
    expect(sentences('D3 G3 B3 E4', 'C3 G3 B3 E4')).toEqual(['Lower course 4 until, held at its 7th fret, it matches course 3 open.']);
  });

  test('says so where a match is an octave apart', () => {
    expect(sentences('E2 A2 D3 G3 B3 E4', 'D2 A2 D3 G3 B3 E4', 5)).toEqual([
      'Lower course 6 until it sounds an octave below course 4, both open.',
    ]);
  });

  test('goes on from a course that was done before', () => {
    const steps = byEarSheet(open('G4 C4 E4 A4'), open('G4 Bb3 Eb4 Bb4'), 18);
    expect(steps.map(({ course }) => course)).toEqual([3, 2, 1]);
    expect(steps[0]?.sentence).toBe('Raise course 1 until it matches course 4 at the 3rd fret.');
  });

  test('takes one pitch from outside where every course moves, and the others from it', () => {
    const steps = byEarSheet(open('G4 C4 E4 A4'), open('F4 Bb3 D4 G4'), 18);
    expect(steps.map(({ way }) => way.kind)).toEqual(['outside', 'match', 'match', 'match']);
    expect(steps[0]?.sentence).toContain('take the pitch from Stillstring or another instrument');
  });

  test('takes a pitch from outside where no fret gives it', () => {
    expect(sentences('C3 C4', 'Db3 C4', 0)).toEqual([
      'Raise course 2 to D♭3: no fret of a course that is right gives it, so take the pitch from Stillstring or another instrument.',
    ]);
  });

  test('tunes the second string of a course to its first', () => {
    const octaves = (text: string): OpenPitches => {
      const [a, b, c] = open(text).flat();
      return [[a!, b!], [c!]];
    };
    expect(byEarSheet(octaves('G3 G4 C4'), octaves('F3 F4 C4'), 18).map(({ sentence }) => sentence)).toEqual([
      'Lower the first string of course 2 until, held at its 7th fret, it matches course 1 open. Then tune its second string an octave above the first.',
    ]);
  });

  test('has nothing to say where nothing moves, and refuses half a fret', () => {
    expect(sentences('G4 C4 E4 A4', 'G4 C4 E4 A4')).toEqual([]);
    expect(() => sentences('G4', 'A4', 2.5)).toThrow('whole number');
  });
});

describe('every step of 2 000 invented changes', () => {
  const random = xoroshiro128plus(20261125);
  const names = ['C', 'Db', 'D', 'Eb', 'E', 'F', 'F#', 'G', 'Ab', 'A', 'Bb', 'B'];
  const invented = (courses: number): string =>
    Array.from({ length: courses }, () => `${names[uniformInt(random, 0, 11)]}${uniformInt(random, 2, 5)}`).join(' ');

  test('leans on a course that is right by then, and sounds as the sheet says', () => {
    for (let round = 0; round < 2000; round += 1) {
      const courses = uniformInt(random, 2, 6);
      const [from, to] = [open(invented(courses)), open(invented(courses))];
      const frets = uniformInt(random, 0, 22);
      const midi = (course: number): number => pitchMidi(to[course]![0]!);
      const right = new Set(from.flatMap(([pitch], course) => (pitchMidi(pitch!) === midi(course) ? [course] : [])));
      const moving = courses - right.size;
      const steps = byEarSheet(from, to, frets);
      expect(steps.length).toBe(moving);
      for (const { course, way, sentence } of steps) {
        expect(right.has(course)).toBe(false);
        expect(sentence.startsWith(midi(course) < pitchMidi(from[course]![0]!) ? 'Lower' : 'Raise')).toBe(true);
        if (way.kind === 'match') {
          expect(right.has(way.reference)).toBe(true);
          expect(way.fret).toBeLessThanOrEqual(frets);
          const [held, open] = way.held === 'reference' ? [way.reference, course] : [course, way.reference];
          const apart = midi(open) - (midi(held) + way.fret);
          expect(way.held === 'reference' ? apart : 0 - apart).toBe(0 + 12 * way.octaves);
        } else {
          for (const reference of right)
            for (const octaves of [-12, 0, 12]) expect(Math.abs(midi(course) - octaves - midi(reference))).toBeGreaterThan(frets);
        }
        right.add(course);
      }
    }
  });
});
