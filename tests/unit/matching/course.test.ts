import { describe, expect, test } from 'vitest';
import { readCourse } from '#shared/matching/index.ts';

const off = (hertz: number, cents: number): number => hertz * 2 ** (cents / 1200);
const heard = (hertz: number) => ({ hertz, sigmaCents: 0.1 });

describe('a course of two strings', () => {
  test('has both pitches, and beats as fast as a unison is apart', () => {
    const strings = [[440, 440]];
    const course = readCourse([heard(off(440, 3)), heard(off(440, -1))], 0, { present: strings, wanted: strings, asked: 0 });
    expect(course.strings.map((one) => one?.deviationCents)).toEqual([expect.closeTo(3, 6), expect.closeTo(-1, 6)]);
    expect(course.beatsPerSecond).toBeCloseTo(off(440, 3) - off(440, -1), 6);
    expect(course.apartCents).toBeCloseTo(4, 6);
  });

  test('beats at the octave: the upper string against the second partial of the lower', () => {
    const strings = [[659.2551, 329.6276]];
    const course = readCourse([heard(329.6276), heard(660.2551)], 0, { present: strings, wanted: strings, asked: 0 });
    expect(course.strings.map((one) => Math.round(one?.hertz ?? 0))).toEqual([660, 330]);
    expect(course.beatsPerSecond).toBeCloseTo(1, 2);
  });

  test('each string is told by where it was', () => {
    const present = [[438, 444]];
    const course = readCourse([heard(443.5), heard(438.2)], 0, { present, wanted: [[440, 440]], asked: 0 });
    expect(course.strings.map((one) => one?.hertz)).toEqual([438.2, 443.5]);
  });

  test('where one string sounds, nothing beats', () => {
    const present = [[438, 444]];
    const course = readCourse([heard(443.5)], 0, { present, wanted: [[440, 440]], asked: 0 });
    expect(course).toMatchObject({ strings: [null, { hertz: 443.5 }], beatsPerSecond: null, apartCents: null });
  });
});
