import { describe, expect, test } from 'vitest';
import { checkFrets, type Gathering, gatherPluck, nothingGathered, referenceFrom } from '#shared/hearing/index.ts';
import { seededRandom } from '#shared/simulation/strings/index.ts';
import { midi } from '#shared/units/index.ts';

const off = (hertz: number, cents: number): number => hertz * 2 ** (cents / 1200);
const framesAt = (hertz: number, seconds = 1, spreadCents = 0.2, seed = 1) => {
  const random = seededRandom(seed);
  return Array.from({ length: Math.round(seconds / 0.05) }, (_, index) => ({
    atSeconds: index * 0.05,
    hertz: off(hertz, random.normal(spreadCents)),
    sigmaCents: 0.2,
    steady: true,
    sincePluckSeconds: index * 0.05,
  }));
};
const gather = (gathering: Gathering, hertz: number): Gathering =>
  framesAt(hertz).reduce((now, frame) => gatherPluck(now, frame).gathering, gathering);

describe('plucks gathered without names', () => {
  test('one pitch a string, in the order heard; a string plucked again counts once, by its last pluck', () => {
    const heard = [440, 261.6, off(440, 3), 392].reduce(gather, nothingGathered);
    expect(heard.pitches.map(({ hertz }) => Math.round(hertz))).toEqual([262, 441, 392]);
  });

  test('nothing comes of a pluck that never stands still', () => {
    const moving = framesAt(440).map((frame) => ({ ...frame, steady: false }));
    expect(moving.reduce((now, frame) => gatherPluck(now, frame).gathering, nothingGathered).pitches).toEqual([]);
  });
});

describe('a reference pitch from a piano', () => {
  test('is what A4 must be for the note that was named, with more doubt the further it is from A4', () => {
    const a = referenceFrom(framesAt(442), midi(69));
    const c = referenceFrom(framesAt(442 * 2 ** (3 / 12)), midi(72));
    if (a.kind === 'refused' || c.kind === 'refused') throw new Error('refused');
    expect(a.a4Hertz).toBeCloseTo(442, 1);
    expect(c.a4Hertz).toBeCloseTo(442, 1);
    expect(a.sigmaCents).toBeLessThan(0.5);
    expect(c.sigmaCents).toBeGreaterThan(a.sigmaCents);
    expect(a.sigmaHertz).toBeCloseTo((a.a4Hertz * a.sigmaCents * Math.LN2) / 1200, 3);
  });

  test('is refused where it is too short, wavers, is another note, or lies outside 400 to 480 Hz', () => {
    const reason = (...given: Parameters<typeof referenceFrom>) => {
      const heard = referenceFrom(...given);
      return heard.kind === 'refused' ? heard.reason : heard.a4Hertz;
    };
    expect(reason(framesAt(440, 0.3), midi(69))).toBe('too-short');
    expect(reason(framesAt(440, 1, 15), midi(69))).toBe('unsteady');
    expect(reason(framesAt(523.25), midi(69))).toBe('another-note');
    expect(reason(framesAt(485), midi(69))).toBe('out-of-range');
    expect(reason(framesAt(399), midi(69))).toBe('out-of-range');
    expect(reason(framesAt(479), midi(69))).toBeCloseTo(479, 0);
  });
});

describe('the 12th fret against the open string', () => {
  const pair = (course: number, cents: number, sigmaCents = 0.3) => ({
    course,
    open: { hertz: 220, sigmaCents },
    fretted: { hertz: off(440, cents), sigmaCents },
  });
  const check = (...cents: readonly number[]) =>
    checkFrets(
      cents.map((one, course) => pair(course, one)),
      (course) => cents.length - course,
    );

  test('reads in cents from the octave, sharp positive', () => {
    const [true0, slightly, sharp, flat] = check(2, 8, 15, -20);
    expect([true0, slightly, sharp, flat].map((one) => one?.verdict)).toEqual(['true', 'slightly-sharp', 'sharp', 'flat']);
    expect(sharp?.cents).toBeCloseTo(15, 6);
    expect(sharp?.sigmaCents).toBeCloseTo(0.3 * Math.SQRT2, 6);
  });

  test('one course off among true ones is its string; all alike are the saddle or the action', () => {
    expect(check(1, 2, 18, 0)[2]?.sentence).toContain('Course 2 reads 18 c sharp at the 12th fret, unlike the others');
    expect(check(15, 17, 18, 16)[2]?.sentence).toContain('saddle');
  });

  test('another fret, or a pitch that is not sure enough, is no reading', () => {
    expect(check(0, -100)[1]?.verdict).toBe('not-the-12th-fret');
    expect(checkFrets([pair(0, 3, 4)], () => 1)[0]?.verdict).toBe('unclear');
  });
});
