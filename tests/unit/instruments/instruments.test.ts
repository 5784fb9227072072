import { describe, expect, test } from 'vitest';
import {
  courseIndex,
  courseNumber,
  courseScaleLength,
  instrumentSchema,
  presetById,
  stringing,
  stringSetFromPreset,
  stringSetSchema,
} from '#shared/instruments/index.ts';
import { open } from '../../support/pitches.ts';

describe('course numbers', () => {
  test('course 1 is nearest the floor; rows are listed from the player’s eye down', () => {
    expect([0, 1, 2, 3].map((index) => courseNumber(index, 4))).toEqual([4, 3, 2, 1]);
    expect([4, 3, 2, 1].map((number) => courseIndex(number, 4))).toEqual([0, 1, 2, 3]);
  });
});

describe('re-entrant or linear is derived from the pitches', () => {
  test.each([
    ['G4 C4 E4 A4', 're-entrant'],
    ['G3 C4 E4 A4', 'linear'],
    ['G4 D3 G3 B3 D4', 're-entrant'],
    ['E2 A2 D3 G3 B3 E4', 'linear'],
    ['G4 G4 B4 D5', 'linear'],
  ])('%s is %s', (row, expected) => {
    expect(stringing(open(row))).toBe(expected);
  });

  test('octave pairs are judged by their lower strings', () => {
    const [octaves, unison, top] = [open('E3 E2').flat(), open('A3 A2').flat(), open('D4 D3').flat()];
    expect(stringing([octaves, unison, top])).toBe('linear');
  });
});

describe('what a player types is refused with a sentence', () => {
  const instrument = {
    id: 'wren',
    name: 'Wren',
    presetId: 'ukulele-tenor-high-g',
    kind: 'tenor, high G',
    scaleLengthMillimetres: 432,
    frets: 18,
    leftHanded: false,
    upsideDown: false,
    pegs: null,
    bridge: null,
    pegsHavePlay: false,
    inputLabel: null,
    inputChannel: 0,
    stringSetId: 'set',
    tuningId: null,
  };

  test('an ordinary instrument is accepted', () => {
    expect(instrumentSchema.safeParse(instrument).success).toBe(true);
  });

  test.each([
    [{ scaleLengthMillimetres: 15 }, 'at least 150 mm'],
    [{ scaleLengthMillimetres: 4320 }, 'at most 1200 mm'],
    [{ name: '  ' }, 'Give the instrument a name'],
  ])('%j is refused', (change, sentence) => {
    const parsed = instrumentSchema.safeParse({ ...instrument, ...change });
    expect(parsed.error?.issues[0]?.message).toContain(sentence);
  });

  test('a string without a home pitch is refused', () => {
    const string = { material: 'nylon', wound: false, diameterMillimetres: 0.6, linearDensityKilogramsPerMetre: null };
    const set = { id: 's', instrumentId: 'wren', name: 'first', fittedAt: 0, courses: [{ strings: [string, string], home: ['G4'] }] };
    expect(stringSetSchema.safeParse(set).error?.issues[0]?.message).toContain('Every string of a course needs a home pitch');
  });
});

describe('a short fifth string', () => {
  const banjo = presetById('banjo-five-string')!;

  test('begins at the fifth fret: its scale length is its own, the others have the instrument’s', () => {
    const [fifth, fourth] = banjo.courses;
    expect(courseScaleLength(banjo, fifth)).toBeCloseTo(banjo.scaleLengthMillimetres * 2 ** (-5 / 12), 1);
    expect(courseScaleLength(banjo, fourth)).toBe(banjo.scaleLengthMillimetres);
  });

  test('keeps its length in the string set, and sets written without it are still read', () => {
    const set = stringSetFromPreset(banjo, { id: 's', instrumentId: 'i', name: 'first', fittedAt: 0 });
    expect(stringSetSchema.parse(set).courses[0]?.scaleLengthMillimetres).toBe(banjo.courses[0]?.scaleLengthMillimetres);
    const older = { ...set, courses: set.courses.map(({ strings, home }) => ({ strings, home })) };
    expect(stringSetSchema.parse(older)).toEqual(older);
  });
});
