import { describe, expect, test } from 'vitest';
import { carry, moveOrder, movesBetween, wantedHertz } from '#shared/tunings/index.ts';
import { hertz } from '#shared/units/index.ts';
import { open } from '../../support/pitches.ts';

const tuning = (row: string, home: string) => ({
  courses: open(row).map((pitches) => ({ pitches: [...pitches], offsetCents: 0 })),
  home: open(home).map((pitches) => [...pitches]),
});
const written = (row: readonly (readonly string[])[] | undefined) => row?.flat().join(' ');

describe('carrying a tuning to another instrument', () => {
  test('a dropped 2nd course on the tenor is the same row as on the baritone, a fourth lower', () => {
    const carried = carry(tuning('G4 C4 Eb4 A4', 'G4 C4 E4 A4'), open('D3 G3 B3 E4'));
    expect(written(carried?.pitches)).toBe('D3 G3 Bb3 E4');
    expect(carried?.sameShapes).toBe(true);
  });

  test('high G and low G share a row: the octave of a course changes no shape', () => {
    const carried = carry(tuning('G4 Bb3 Eb4 Bb4', 'G4 C4 E4 A4'), open('G3 C4 E4 A4'));
    expect(written(carried?.pitches)).toBe('G3 Bb3 Eb4 Bb4');
    expect(carried?.sameShapes).toBe(true);
  });

  test('where the homes are not one another’s transposition, the shapes are other ones', () => {
    expect(carry(tuning('G4 C4 E4 G4', 'G4 C4 E4 A4'), open('C3 G3 D4 A4'))?.sameShapes).toBe(false);
  });

  test('an instrument with other courses cannot take it', () => {
    expect(carry(tuning('G4 C4 E4 G4', 'G4 C4 E4 A4'), open('E2 A2 D3 G3 B3 E4'))).toBeNull();
  });

  test('carried home it is itself', () => {
    expect(written(carry(tuning('G4 Bb3 Eb4 Bb4', 'G4 C4 E4 A4'), open('G4 C4 E4 A4'))?.pitches)).toBe('G4 Bb3 Eb4 Bb4');
  });
});

describe('moves', () => {
  test('every course has its move, those that stay among them', () => {
    const moves = movesBetween(open('G4 C4 E4 A4'), open('G4 Bb3 Eb4 Bb4'));
    expect(moves.map(({ semitones }) => semitones)).toEqual([0, -2, -1, 1]);
    expect(moves.map(({ interval }) => interval)).toEqual(['1P', '-2M', '-1A', '2m']);
  });

  test('loosening comes first, then tightening, the largest first in each', () => {
    expect(moveOrder([0, -2, -1, 1])).toEqual([1, 2, 3]);
    expect(moveOrder([1, 3, -1, -2])).toEqual([3, 2, 1, 0]);
    expect(moveOrder([0, 0, 0, 0])).toEqual([]);
  });

  test('tunings with other courses cannot be moved to', () => {
    expect(() => movesBetween(open('G4 C4 E4 A4'), open('G4 C4 E4'))).toThrow(RangeError);
  });
});

describe('wanted frequencies', () => {
  test('follow the reference and the offset of the course', () => {
    const offsets = [{ offsetCents: 0 }, { offsetCents: -6 }];
    const [plain, offset] = wantedHertz(open('A4 A4'), offsets, hertz(442)).flat();
    expect(plain).toBe(442);
    expect(1200 * Math.log2(offset! / plain!)).toBeCloseTo(-6, 9);
  });
});
