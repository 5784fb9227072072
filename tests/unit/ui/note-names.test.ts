import { afterEach, describe, expect, test } from 'vitest';
import type { SpelledPitch } from '#shared/music/index.ts';
import { chordText, courseText, pitchText, readPitch, readPitchesNear, setNoteLanguage } from '../../../src-renderer/ui/note-names.ts';
import { draftOf, keys, readDraft } from '../../../src-renderer/screens/tunings/draft.ts';
import { open } from '../../support/pitches.ts';
import { tuningOf } from '../screens/wren.ts';

const home = open('G4 C4 E4 A4');
const lantern = open('G4 Bb3 Eb4 Bb4');

afterEach(() => setNoteLanguage('english'));

describe('note names', () => {
  test.each([
    ['english', 'B♭3', 'E♭ major', 'B♭3'],
    ['german', 'B3', 'Es major', 'B3'],
    ['fixed-do', 'Si♭3', 'Mi♭ major', 'Si♭3'],
  ] as const)('%s: a pitch, a course and a chord are named alike', (language, pitch, chord, course) => {
    setNoteLanguage(language);
    expect(pitchText('Bb3')).toBe(pitch);
    expect(chordText(lantern.flat())).toBe(chord);
    expect(courseText(['Bb3' as SpelledPitch])).toBe(course);
    expect(readPitch(pitch)).toBe('Bb3');
  });

  test('a form shows and reads them in the chosen language, and the tuning stays the same', () => {
    setNoteLanguage('german');
    const tuning = tuningOf('Lantern', 'G4 Bb3 Eb4 Bb4', 'G4 C4 E4 A4');
    const ground = { tuning, shown: lantern, home };
    const draft = draftOf(ground);
    expect(draft.pitches).toBe('G4  B3  Es4  B4');
    expect(readDraft(draft, ground, 'x')).toEqual(tuning);
    expect(readPitchesNear('G H Es B', home.flat())).toEqual(['G4', 'B3', 'Eb4', 'Bb4']);
    expect(readDraft({ ...draft, pitches: 'G4 X4 Es4 B4' }, ground, 'x')).toMatchObject({
      problems: { pitches: expect.stringContaining('like Es4') },
    });
    expect(keys().map(({ words }) => words)).toContain('B major');
  });
});
