import { describe, expect, test } from 'vitest';
import { whichTuning } from '#shared/matching/index.ts';
import { hertzOf } from '../../support/pitches.ts';

const named = (row: string) => ({ id: row, wanted: hertzOf(row) });
const library = ['G4 C4 E4 A4', 'G4 C4 Eb4 A4', 'G4 Bb3 Eb4 Bb4', 'G4 C4 E4 G4', 'A4 D4 F#4 B4'].map(named);
const off = (hertz: number, cents: number): number => hertz * 2 ** (cents / 1200);
const heardOf = (row: string, cents = 0) => hertzOf(row).map(([hertz = 0]) => off(hertz, cents));

describe('what am I in?', () => {
  test('the tuning it is in comes first, whatever the order of the plucks, with the moves to the others', () => {
    const [g = 0, c = 0, e = 0, a = 0] = heardOf('G4 C4 Eb4 A4', 2);
    const answer = whichTuning([a, c, g, e], library);
    if (answer.kind !== 'ranked') throw new Error(answer.kind);
    expect(answer.tunings.slice(0, 2).map(({ id }) => id)).toEqual(['G4 C4 Eb4 A4', 'G4 C4 E4 A4']);
    expect(answer.tunings[1]?.moves.map(([cents = 0]) => Math.round(cents))).toEqual([-2, -2, 98, -2]);
    expect(answer.present).toEqual([[g], [c], [e], [a]]);
  });

  test('works two semitones off: all strings slack after a journey', () => {
    const answer = whichTuning(heardOf('G4 C4 E4 A4', -200), [named('G4 C4 E4 A4'), named('A4 D4 F#4 B4')]);
    if (answer.kind !== 'ranked') throw new Error(answer.kind);
    expect(answer.tunings[0]?.id).toBe('G4 C4 E4 A4');
    expect(answer.tunings[0]?.moves.map(([cents = 0]) => Math.round(cents))).toEqual([200, 200, 200, 200]);
  });

  test('two strings tuned alike may be heard as one', () => {
    const answer = whichTuning([261.6, 329.6, 392], library);
    expect(answer.kind === 'ranked' ? answer.tunings[0]?.id : answer).toBe('G4 C4 E4 G4');
    expect(answer.kind === 'ranked' ? answer.present.map(([hertz]) => hertz) : null).toEqual([392, 261.6, 329.6, 392]);
  });

  test('where two readings are as good, it asks for a course; the log decides if it bears one out', () => {
    // The outer strings have changed places between these two.
    const crossed = [named('G4 C4 E4 A4'), named('A4 C4 E4 G4')];
    const heard = heardOf('G4 C4 E4 A4', 1);
    expect(whichTuning(heard, crossed)).toEqual({ kind: 'could-be-several', alike: ['G4 C4 E4 A4', 'A4 C4 E4 G4'], ask: 0 });
    const known = whichTuning(heard, crossed, hertzOf('A4 C4 E4 G4'));
    expect(known.kind === 'ranked' ? known.tunings[0]?.id : known).toBe('A4 C4 E4 G4');
  });

  test('it does not guess where one tuning, two semitones off, sounds as another does; a course plucked by name tells', () => {
    const crossed = [named('F4 Bb3 D4 G4'), named('A4 C4 E4 G4')];
    const heard = heardOf('A4 C4 E4 G4', -200);
    const answer = whichTuning(heard, crossed);
    expect(answer).toMatchObject({ kind: 'could-be-several', ask: 0 });
    const told = whichTuning(heard, crossed, null, [{ course: 0, hertz: heard[0] ?? 0 }]);
    expect(told.kind === 'ranked' ? told.present.flat() : told).toEqual(heard);
  });

  test('one string that was turned by itself leaves no doubt whose the others are', () => {
    const heard = hertzOf('G4 Bb3 E4 A4').flat();
    const answer = whichTuning(heard, library);
    expect(answer.kind === 'ranked' ? answer.present.flat() : answer).toEqual(heard);
  });

  test('says when courses are missing, too many pitches came, or nothing is near', () => {
    expect(whichTuning([261.6, 440], library)).toEqual({ kind: 'unknown', reason: 'pluck-more' });
    expect(whichTuning([220, 261.6, 329.6, 392, 440], library)).toEqual({ kind: 'unknown', reason: 'too-many' });
    expect(whichTuning(heardOf('G4 C4 E4 A4', -900), library)).toEqual({ kind: 'unknown', reason: 'no-tuning-near' });
  });

  test('refuses tunings of different instruments', () => {
    expect(() => whichTuning([440], [named('A4'), named('A4 D4')])).toThrow(RangeError);
  });
});
