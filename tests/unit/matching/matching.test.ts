import { describe, expect, test } from 'vitest';
import { matchFrame, surelyMatched } from '#shared/matching/index.ts';
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

  test('a course that was heard already stands where it was: 25 cents from there another is not taken for it', () => {
    const at = (isHeard: boolean) =>
      matchFrame(off(home[0]?.[0], 25), { present: home, wanted: hertzOf('G4 C4 A4 A4'), asked: 2, heard: [isHeard, false, true, false] });
    const certainty = (isHeard: boolean) => {
      const match = at(isHeard);
      return match.kind === 'match' && match.course === 2 ? match.certainty : Number.NaN;
    };
    expect(certainty(false)).toBeLessThan(surelyMatched);
    expect(certainty(true)).toBeGreaterThan(surelyMatched);
  });

  test('the deviation is from wanted, positive = sharp', () => {
    const match = matchFrame(off(lantern[2]?.[0], 37), { present: home, wanted: lantern, asked: 2 });
    expect(match).toMatchObject({ course: 2 });
    expect(match.kind === 'match' ? match.deviationCents : Number.NaN).toBeCloseTo(37, 6);
  });

  test('another string that needs no work is not taken for the one asked for', () => {
    const asked = { present: home, wanted: lantern, asked: 1, heard: [false, true, false, false] };
    expect(matchFrame(off(home[0]?.[0], 2), asked)).toMatchObject({ kind: 'match', course: 0 });
  });

  test('unless the one asked for has not been heard yet: the log may be wrong about it, and neither is guessed', () => {
    expect(matchFrame(off(home[0]?.[0], 2), { present: home, wanted: lantern, asked: 1 })).toEqual({
      kind: 'unknown',
      reason: 'could-be-several',
      candidates: [1, 0],
    });
  });

  test('the log is wrong about the course asked for: wherever it stands, it is never taken for another', () => {
    for (let start = -1400; start <= 1400; start += 10) {
      for (const asked of [0, 1, 2, 3]) {
        const match = matchFrame(off(lantern[asked]?.[0], start), { present: home, wanted: lantern, asked });
        if (match.kind === 'match') expect(match.course).toBe(asked);
        else expect(match.candidates).toContain(asked);
      }
    }
  });

  test('a note stopped at any fret is not surely the open string, unless that is on its way there', () => {
    const certainty = (cents: number) => {
      const match = matchFrame(off(home[1]?.[0], cents), { present: home, wanted: hertzOf('G4 C#4 E4 A4'), asked: 1 });
      return match.kind === 'match' && match.course === 1 ? match.certainty : Number.NaN;
    };
    for (const stopped of [205, 307]) expect(certainty(stopped)).toBeLessThan(surelyMatched);
    for (const turned of [105, 150, 230]) expect(certainty(turned)).toBeGreaterThan(surelyMatched);
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

  test('free, between two strings a tone apart it does not guess', () => {
    expect(matchFrame(off(home[3]?.[0], -80), { present: home, wanted: home, asked: null })).toEqual({
      kind: 'unknown',
      reason: 'could-be-several',
      candidates: [3, 0],
    });
  });

  test('the course asked for is known an octave and more from where it is wanted, if the log knows that it is there', () => {
    for (const start of [-1400, -1200, -700, 700, 1200, 1400]) {
      const present = home.map(([hertz], course) => [course === 2 ? off(hertz, start) : (hertz ?? 0)]);
      expect(matchFrame(off(home[2]?.[0], start), { present, wanted: home, asked: 2 })).toMatchObject({ kind: 'match', course: 2 });
    }
  });

  test('where the asked course has not been heard to move and another stands right there, it is believed with less certainty', () => {
    const certainty = (present: string) => {
      const match = matchFrame(home[2]?.[0] ?? 0, { present: hertzOf(present), wanted: hertzOf('G4 G4 E4 A4'), asked: 1 });
      return match.kind === 'match' && match.course === 1 ? match.certainty : Number.NaN;
    };
    expect(certainty('G4 E4 E4 A4')).toBeGreaterThan(0.9);
    expect(certainty('G4 A3 E4 A4')).toBeLessThan(0.7);
  });

  test('of a double course tuned in unison, the string asked for is meant', () => {
    const double = [[392, 392.4], [261.6], [329.6], [440]];
    for (const askedString of [0, 1])
      expect(matchFrame(392.2, { present: double, wanted: double, asked: 0, askedString })).toMatchObject({
        course: 0,
        string: askedString,
      });
  });

  test('free, every open string of the standard strings is found up to 40 cents off', () => {
    for (const [course, [hertz]] of home.entries()) {
      for (const cents of [-40, -20, 0, 20, 40]) {
        expect(matchFrame(off(hertz, cents), { present: home, wanted: home, asked: null })).toMatchObject({ kind: 'match', course });
      }
    }
  });
});
