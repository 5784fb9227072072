import { describe, expect, test } from 'vitest';
import { draftOf, keys, readDraft, readPitches, spelledIn } from '../../../../src-renderer/screens/tunings/draft.ts';
import { open } from '../../../support/pitches.ts';
import { tuningOf } from '../wren.ts';

const home = open('G4 C4 E4 A4');
const lantern = tuningOf('Lantern', 'G4 Bb3 Eb4 Bb4', 'G4 C4 E4 A4', { tags: ['open'], notes: 'Soft.' });

describe('a tuning started from another', () => {
  const ground = { tuning: null, startsFrom: lantern, shown: open('G4 Bb3 Eb4 Bb4'), home };
  const draft = draftOf(ground);

  test('has its pitches and tags, but its own name and notes', () => {
    expect(draft).toMatchObject({ name: '', pitches: 'G4  B♭3  E♭4  B♭4', tags: 'open', notes: '' });
    expect(readDraft({ ...draft, name: 'Lamp' }, ground, 'new')).toMatchObject({ id: 'new', name: 'Lamp', favourite: false });
  });
});

describe('a line of pitches', () => {
  test('is spelled as in a chosen key, its sound kept', () => {
    const [bMajor, eFlatMajor] = ['B major', 'E♭ major'].map((words) => keys().find((one) => one.words === words)!.key);
    expect(spelledIn('G4 Bb3 Eb4 Bb4', home, bMajor!)).toBe('G4  A♯3  D♯4  A♯4');
    expect(spelledIn('G4 A#3 D#4 A#4', home, eFlatMajor!)).toBe('G4  B♭3  E♭4  B♭4');
    expect(spelledIn('no pitches', home, bMajor!)).toBe('no pitches');
  });

  test('needs no octaves: each is the one nearest to home', () => {
    expect(readPitches('G C Eb G', home)).toEqual(open('G4 C4 Eb4 G4'));
  });
});

test('every key can spell every semitone, and is named once', () => {
  for (const { key } of keys())
    for (const line of ['C4 C#4 D4 Eb4', 'E4 F4 F#4 G4', 'G#4 A4 Bb4 B4']) expect(spelledIn(line, home, key)).not.toBe('');
  expect(new Set(keys().map(({ words }) => words)).size).toBe(keys().length);
});
