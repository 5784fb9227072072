import { describe, expect, test } from 'vitest';
import { homePitches } from '#shared/instruments/index.ts';
import { carry, type OpenPitches, tuningSchema } from '#shared/tunings/index.ts';
import { draftOf, type Ground, readDraft, readPitches } from '../../../../src-renderer/screens/tunings/draft.ts';
import { starterTunings } from '../../../../src-renderer/screens/starters.ts';
import { instrumentOf, tuningOf } from '../wren.ts';

const homeOf = (presetId: string): OpenPitches => homePitches(instrumentOf(presetId, 'Wren').stringSet);
const home = homeOf('ukulele-tenor-high-g');
const baritone = homeOf('ukulele-baritone-high-d');
const blank: Ground = { tuning: null, shown: null, home };
const doubled = [
  ['G4', 'G3'],
  ['C4', 'C4'],
  ['E4', 'E4'],
  ['A4', 'A4'],
] as unknown as OpenPitches;
const sentence = (text: string): string => {
  const read = readPitches(text, home);
  return 'sentence' in read ? read.sentence : '';
};

describe('writing a tuning down', () => {
  test('one line of pitches, with either flat, in either case', () => {
    for (const text of ['G4 C4 E♭4 G4', 'g4 c4 eb4 g4', 'G4, C4, Eb4, G4'])
      expect(readPitches(text, home)).toEqual([['G4'], ['C4'], ['Eb4'], ['G4']]);
  });

  test('what is wrong with the line is said', () => {
    expect(sentence('G4 C4 H4 A4')).toContain('“H4” is no pitch');
    expect(sentence('G4 C4 E4')).toBe('This line has three pitches; the instrument has four courses.');
    expect(sentence('  ')).toContain('four pitches');
    expect(sentence('G4 C4 E4 A6')).toBe('A6 is 24 semitones from A4, the home of course 1. Is its octave right?');
  });

  test('for a double course one pitch moves both strings; or every string is written', () => {
    expect(readPitches('F4 C4 E4 A4', doubled)).toEqual([
      ['F4', 'F3'],
      ['C4', 'C4'],
      ['E4', 'E4'],
      ['A4', 'A4'],
    ]);
    expect(readPitches('F4 G3 C4 C4 E4 E4 A4 A4', doubled)).toEqual([
      ['F4', 'G3'],
      ['C4', 'C4'],
      ['E4', 'E4'],
      ['A4', 'A4'],
    ]);
  });

  test('a new tuning is written for the home of the instrument in hand', () => {
    const draft = {
      ...draftOf(blank),
      name: ' Cold hearth ',
      pitches: 'G4 C4 Eb4 G4',
      offsets: ['', '', '−6', ''],
      tags: 'open, minor, open,',
    };
    const tuning = readDraft(draft, blank, 'new');
    if ('problems' in tuning) throw new Error(JSON.stringify(tuning.problems));
    expect(tuningSchema.parse(tuning)).toMatchObject({ id: 'new', name: 'Cold hearth', home, tags: ['open', 'minor'] });
    expect(tuning.courses[2]).toEqual({ pitches: ['Eb4'], offsetCents: -6 });
  });

  test('all that is wrong is told at once', () => {
    const draft = { ...draftOf(blank), pitches: 'X', offsets: ['', '60', '', 'many'], tags: 'a'.repeat(41) };
    const read = readDraft(draft, blank, 'new');
    expect(Object.keys('problems' in read ? read.problems : {}).sort()).toEqual(['name', 'offset 1', 'offset 3', 'pitches', 'tags']);
  });

  test('changing only the name on another instrument leaves pitches and home as they were written', () => {
    const tuning = tuningOf('Lantern', 'G4 Bb3 Eb4 Bb4', 'G4 C4 E4 A4', { favourite: true });
    const ground: Ground = { tuning, shown: carry(tuning, baritone)!.pitches, home: baritone };
    const read = readDraft({ ...draftOf(ground), name: 'Lantern E♭' }, ground, 'unused');
    expect(read).toEqual({ ...tuning, name: 'Lantern E♭' });
  });

  test('changing a pitch on another instrument writes it for that instrument’s home', () => {
    const tuning = tuningOf('Lantern', 'G4 Bb3 Eb4 Bb4', 'G4 C4 E4 A4');
    const ground: Ground = { tuning, shown: carry(tuning, baritone)!.pitches, home: baritone };
    const read = readDraft({ ...draftOf(ground), pitches: 'D4 F3 B3 F4' }, ground, 'unused');
    if ('problems' in read) throw new Error(JSON.stringify(read.problems));
    expect(read.home).toEqual(baritone);
    expect(carry(read, home)?.pitches.flat()).toEqual(['G4', 'Bb3', 'E4', 'Bb4']);
  });
});

describe('starter tunings', () => {
  test('an instrument is offered those that it can take, ready to save', () => {
    let ids = 0;
    const newId = (): string => `id ${(ids += 1)}`;
    for (const [presetId, courses] of [
      ['ukulele-baritone', 4],
      ['guitar-classical', 6],
    ] as const) {
      const offered = starterTunings(homeOf(presetId), newId);
      expect(offered.length).toBeGreaterThan(2);
      for (const tuning of offered) expect(tuningSchema.parse(tuning).courses).toHaveLength(courses);
    }
    expect(starterTunings(doubled, newId).map(({ name }) => name)).toContain('Open C minor');
    expect(starterTunings(homeOf('ukulele-baritone'), newId).map(({ name }) => name)).toContain('Open G minor');
    const [first] = starterTunings(homeOf('ukulele-baritone'), newId);
    expect(starterTunings(homeOf('ukulele-tenor-high-g'), newId, [first!]).map(({ name }) => name)).not.toContain(first!.name);
    expect(starterTunings([['C4'], ['D4'], ['E4'], ['F4']] as never, newId)).toEqual([]);
  });
});
