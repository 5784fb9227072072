import { describe, expect, test } from 'vitest';
import {
  carry,
  carryOrWhy,
  duplicates,
  moveOrder,
  movesBetween,
  movesFromPresent,
  sameTuning,
  semitonesApart,
  wantedHertz,
} from '#shared/tunings/index.ts';
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

  test('why it does not apply is said', () => {
    const row = tuning('G4 C4 E4 G4', 'G4 C4 E4 A4');
    expect(carryOrWhy(row, open('E2 A2 D3 G3 B3 E4'))).toEqual({ doesNotApply: 'other number of courses', writtenFor: 4, here: 6 });
    const pair = { courses: [{ pitches: open('G4 F3').flat() }], home: [open('G4 G3').flat()] };
    expect(carryOrWhy(pair, open('G4'))).toEqual({ doesNotApply: 'strings of a course move apart', course: 0 });
  });

  test('on pairs and triples the course moves as a whole', () => {
    const tiple = [open('D4 D3 D4').flat(), open('G4 G3 G4').flat(), open('B4 B3 B4').flat(), open('E4 E4 E4').flat()];
    const carried = carry(tuning('G4 C4 Eb4 A4', 'G4 C4 E4 A4'), tiple);
    expect(written(carried?.pitches)).toBe('D4 D3 D4 G4 G3 G4 Bb4 Bb3 Bb4 E4 E4 E4');
    expect(carried?.sameShapes).toBe(true);
  });

  test('a pair whose strings move apart keeps that on another pair', () => {
    const pair = { courses: [{ pitches: open('G4 F3').flat() }], home: [open('G4 G3').flat()] };
    expect(written(carry(pair, [open('A4 A3').flat()])?.pitches)).toBe('A4 G3');
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

describe('moves from where the instrument is', () => {
  const reference = hertz(440);
  const wanted = (row: string) => wantedHertz(open(row), null, reference);
  const heard = (row: string, cents: readonly number[]) =>
    wanted(row).map((strings, course) => strings.map((one) => hertz(one * 2 ** ((cents[course] ?? 0) / 1200))));

  test('a string off its pitch is called by the pitch nearest to it, and has its way to go in cents', () => {
    const moves = movesFromPresent(heard('G4 C4 E4 A4', [12, -8, 0, 30]), open('G4 C4 D#4 G4'), wanted('G4 C4 D#4 G4'), reference);
    expect(moves.map(({ from }) => from.join(' '))).toEqual(['G4', 'C4', 'E4', 'A4']);
    expect(moves.map(({ semitones }) => semitones)).toEqual([0, 0, -1, -2]);
    expect(moves.map(({ cents }) => Math.round(cents[0]!))).toEqual([-12, 8, -100, -230]);
  });

  test('a string at its pitch is called as the tuning spells it', () => {
    const [move] = movesFromPresent(heard('Eb4', [5]), open('D#4'), wanted('D#4'), reference);
    expect(move?.from).toEqual(['D#4']);
    expect(move?.semitones).toBe(0);
  });
});

describe('rows that are one tuning', () => {
  const named = (name: string, row: string, home: string) => ({ name, ...tuning(row, home) });
  const small = named('small', 'G4 C4 Eb4 A4', 'G4 C4 E4 A4');
  const baritone = named('baritone', 'D3 G3 A#3 E4', 'D3 G3 B3 E4');

  test('are found across homes and spellings', () => {
    expect(sameTuning(small, baritone)).toBe(true);
    const offset = { ...small, courses: small.courses.map((course) => ({ ...course, offsetCents: 4 })) };
    expect(sameTuning(small, offset)).toBe(false);
    const groups = duplicates([named('c', 'G4 C4 E4 G4', 'G4 C4 E4 A4'), small, offset, baritone]);
    expect(groups.map((group) => group.map(({ name }) => name))).toEqual([['small', 'baritone']]);
  });

  test('the same moves from a home of another shape are another tuning', () => {
    expect(sameTuning(named('a', 'G3 D4 A4 D5', 'G3 D4 A4 E5'), named('b', 'G4 C4 E4 G4', 'G4 C4 E4 A4'))).toBe(false);
  });

  test('the same shapes so many semitones apart are told', () => {
    const [c, d] = [tuning('G4 C4 E4 G4', 'G4 C4 E4 A4'), tuning('A4 D4 F#4 A4', 'G4 C4 E4 A4')];
    expect(semitonesApart(d, c)).toBe(2);
    expect(semitonesApart(c, d)).toBe(-2);
    expect(semitonesApart(c, small)).toBeNull();
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
