import { describe, expect, test } from 'vitest';
import { instrumentPresets, instrumentSchema, stringSetSchema } from '#shared/instruments/index.ts';
import { draftOf, readDraft, readNew } from '../../../../src-renderer/screens/instruments/draft.ts';
import { bridgeOptions, hardwareWords, kindOf, pegOptions, unsaid } from '../../../../src-renderer/screens/instruments/hardware.ts';
import { presetWords, stringWords } from '../../../../src-renderer/screens/instruments/string-words.ts';
import { instrumentOf } from '../wren.ts';

const wren = instrumentOf('ukulele-tenor-high-g', 'Wren');
const fresh = { stringSetId: 'new-set', at: 1_000_000 };
const read = (change: Partial<ReturnType<typeof draftOf>>) => readDraft({ ...draftOf(wren), ...change }, wren, fresh);
const problemsOf = (change: Partial<ReturnType<typeof draftOf>>) => {
  const result = read(change);
  return 'problems' in result ? result.problems : null;
};

describe('changing an instrument', () => {
  test('a form that was not touched gives back every preset as it was', () => {
    for (const { id } of instrumentPresets) {
      const overview = instrumentOf(id, 'Wren');
      expect(readDraft(draftOf(overview), overview, fresh)).toEqual({ instrument: overview.instrument, stringSet: overview.stringSet });
    }
  });

  test('what is saved passes the library’s schemas', () => {
    const entry = read({ name: ' Wren ', scaleLengthMillimetres: '431,5', frets: '19' });
    if ('problems' in entry) throw new Error(JSON.stringify(entry.problems));
    expect(instrumentSchema.parse(entry.instrument)).toMatchObject({ name: 'Wren', scaleLengthMillimetres: 431.5, frets: 19 });
    expect(stringSetSchema.safeParse(entry.stringSet).success).toBe(true);
  });

  test('a scale length that no instrument has is refused in a sentence with the range', () => {
    for (const scaleLengthMillimetres of ['43', 'long', '', '4320'])
      expect(problemsOf({ scaleLengthMillimetres })?.['scaleLengthMillimetres']).toMatch(/From 150 to 1200 mm/u);
  });

  test('pegs and bridge are kept as said, and “not said” is said by nothing', () => {
    const entry = read({ pegs: kindOf(pegOptions, 'planetary'), bridge: kindOf(bridgeOptions, unsaid), pegsHavePlay: true });
    if ('problems' in entry) throw new Error(JSON.stringify(entry.problems));
    expect(instrumentSchema.parse(entry.instrument)).toMatchObject({ pegs: 'planetary', bridge: null, pegsHavePlay: true });
    expect(hardwareWords(entry.instrument)).toBe('planetary, geared inside; pegs with play');
    expect(hardwareWords({ pegs: null, bridge: 'tied', pegsHavePlay: false })).toBe('tied, glued bridge');
    expect(hardwareWords(wren.instrument)).toBeNull();
  });

  test('frets are whole, a name is not empty', () => {
    expect(problemsOf({ frets: '18.5' })).toHaveProperty('frets');
    expect(problemsOf({ name: '   ' })).toHaveProperty('name');
  });

  test('a home that is no pitch is named with its course; all that is wrong is told at once', () => {
    const [first, ...others] = draftOf(wren).courses;
    const [string] = first!;
    const problems = problemsOf({
      courses: [[{ ...string!, home: 'H4', diameterMillimetres: '57', gramsPerMetre: 'heavy' }], ...others],
    });
    expect(Object.keys(problems ?? {}).sort()).toEqual(['diameterMillimetres 0 0', 'gramsPerMetre 0 0', 'home 0 0']);
    expect(problems?.['home 0 0']).toContain('“H4” is no pitch');
  });

  test('a diameter or a weight may be left empty: then it is not known', () => {
    const [first, ...others] = draftOf(wren).courses;
    const entry = read({ courses: [[{ ...first![0]!, diameterMillimetres: ' ' }], ...others] });
    if ('problems' in entry) throw new Error(JSON.stringify(entry.problems));
    expect(entry.stringSet.courses[0]?.strings[0]).toMatchObject({ diameterMillimetres: null, linearDensityKilogramsPerMetre: null });
  });

  test('a weight is typed in grams and kept in kilograms a metre', () => {
    const [first, ...others] = draftOf(wren).courses;
    const entry = read({ courses: [[{ ...first![0]!, gramsPerMetre: '0,45' }], ...others] });
    if ('problems' in entry) throw new Error(JSON.stringify(entry.problems));
    expect(entry.stringSet.courses[0]?.strings[0]?.linearDensityKilogramsPerMetre).toBeCloseTo(0.00045, 9);
  });

  test('new strings are a set of their own, fitted now; corrected figures stay with the old one', () => {
    const corrected = read({ setName: 'Fluorocarbon' });
    const replaced = read({ hasNewStrings: true });
    if ('problems' in corrected || 'problems' in replaced) throw new Error('refused');
    expect(corrected.stringSet).toMatchObject({ id: wren.stringSet.id, fittedAt: wren.stringSet.fittedAt, name: 'Fluorocarbon' });
    expect(replaced.stringSet).toMatchObject({ id: 'new-set', fittedAt: 1_000_000 });
    expect(replaced.instrument.stringSetId).toBe('new-set');
  });
});

describe('a new instrument', () => {
  const ids = { id: 'new', stringSetId: 'new-set', at: 5 };

  test('every preset can be saved with its own scale length', () => {
    for (const preset of instrumentPresets) {
      const entry = readNew({ name: 'Wren', scaleLengthMillimetres: String(preset.scaleLengthMillimetres), preset }, ids);
      if ('problems' in entry) throw new Error(JSON.stringify(entry.problems));
      expect(instrumentSchema.safeParse(entry.instrument).success).toBe(true);
      expect(stringSetSchema.safeParse(entry.stringSet).success).toBe(true);
      expect(entry.instrument.tuningId).toBeNull();
    }
  });

  test('without a name it is not saved, and the sentence says so', () => {
    const [preset] = instrumentPresets;
    expect(readNew({ name: '', scaleLengthMillimetres: '432', preset: preset! }, ids)).toEqual({
      problems: { name: 'Give the instrument a name of at most 60 letters.' },
    });
  });

  test('kinds and strings are told in words', () => {
    expect(instrumentPresets.map(presetWords)).toContain('tenor ukulele, high G');
    expect(instrumentPresets.map(presetWords)).toContain('guitar, nylon strings');
    expect(stringWords({ material: 'nylon', wound: true, diameterMillimetres: 0.84, linearDensityKilogramsPerMetre: 0.0026 })).toBe(
      '0.84 mm wound nylon, 2.60 g/m',
    );
    expect(stringWords({ material: 'synthetic-gut', wound: false, diameterMillimetres: null, linearDensityKilogramsPerMetre: null })).toBe(
      'synthetic gut',
    );
  });
});
