import { describe, expect, test } from 'vitest';
import { matchFrame } from '#shared/matching/index.ts';
import { hertzOf } from '../../support/pitches.ts';

const home = hertzOf('G4 C4 E4 A4');
const lantern = hertzOf('G4 Bb3 Eb4 Bb4');
const off = (hertz: number | undefined, cents: number): number => (hertz ?? Number.NaN) * 2 ** (cents / 1200);

describe('which course is sounding', () => {
  test('a string anywhere on its way is itself', () => {
    for (const cents of [0, -50, -100, -150, -200]) {
      expect(matchFrame(off(home[1]?.[0], cents), { present: home, wanted: lantern, asked: 1 })).toMatchObject({
        kind: 'match',
        course: 1,
        string: 0,
      });
    }
  });

  test('the deviation is from wanted, positive = sharp', () => {
    const match = matchFrame(off(lantern[2]?.[0], 37), { present: home, wanted: lantern, asked: 2 });
    expect(match).toMatchObject({ course: 2 });
    expect(match.kind === 'match' ? match.deviationCents : Number.NaN).toBeCloseTo(37, 6);
  });

  test('another string that needs no work is not taken for the one asked for', () => {
    expect(matchFrame(off(home[0]?.[0], 2), { present: home, wanted: lantern, asked: 1 })).toMatchObject({ kind: 'match', course: 0 });
  });

  test('two strings at one pitch: the one asked for is meant', () => {
    const unison = hertzOf('G4 C4 E4 G4');
    expect(matchFrame(392, { present: unison, wanted: unison, asked: 3 })).toMatchObject({ kind: 'match', course: 3 });
    expect(matchFrame(392, { present: unison, wanted: unison, asked: 0 })).toMatchObject({ kind: 'match', course: 0 });
  });

  test('two strings at one pitch and none asked for: it does not guess', () => {
    const unison = hertzOf('G4 C4 E4 G4');
    expect(matchFrame(392, { present: unison, wanted: unison, asked: null })).toEqual({
      kind: 'unknown',
      reason: 'could-be-several',
      candidates: [0, 3],
    });
  });

  test('the octave of a string is not the string', () => {
    const linear = hertzOf('G3 C4 E4 A4');
    expect(matchFrame(off(linear[1]?.[0], 1200), { present: linear, wanted: linear, asked: null })).toEqual({
      kind: 'unknown',
      reason: 'an-octave-off',
      candidates: [1],
    });
  });

  test('a sound that is no string of the instrument is refused', () => {
    expect(matchFrame(120, { present: home, wanted: home, asked: null })).toEqual({
      kind: 'unknown',
      reason: 'no-string-near',
      candidates: [],
    });
  });

  test('of a double course the nearer string is named', () => {
    const double = [[392, 196], [261.6], [329.6], [440]];
    expect(matchFrame(196.4, { present: double, wanted: double, asked: null })).toMatchObject({ course: 0, string: 1 });
  });

  test('free, every open string of the standard strings is found up to a quarter tone off', () => {
    for (const [course, [hertz]] of home.entries()) {
      for (const cents of [-50, -20, 0, 20, 50]) {
        expect(matchFrame(off(hertz, cents), { present: home, wanted: home, asked: null })).toMatchObject({ kind: 'match', course });
      }
    }
  });
});
