import { useSyncExternalStore } from 'react';
import { type NoteLanguage, openChord, parsePitch, parsePitchesNear, type SpelledPitch, writtenPitchIn } from '#shared/music/index.ts';

// One choice for the whole window: every pitch that is shown or typed goes through this file. The library keeps it; the frame sets it here.

let language: NoteLanguage = 'english';
let isChosen = false;
const listeners = new Set<() => void>();

/** Reads and writes note names in another language from now on. Screens that are gone to afterwards show it. */
export function setNoteLanguage(chosen: NoteLanguage): void {
  language = chosen;
  isChosen = true;
  for (const listener of listeners) listener();
}

/** Whether it is known by now how notes are named: before that, no pitch is to be shown. */
export const useNoteLanguageIsKnown = (): boolean =>
  useSyncExternalStore(
    (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    () => isChosen,
  );

/** A pitch, or a name without octave, for people to read: `Eb4` → `E♭4`, in German `Es4`. */
export const pitchText = (pitch: string): string => writtenPitchIn(pitch, language);

/** The strings of a course: `G4`, or `E5 · E4`. */
export const courseText = (pitches: readonly SpelledPitch[]): string => pitches.map(pitchText).join(' · ');

/** The chord that open strings make, its root named like every other note; null where it has no plain name. */
export const chordText = (pitches: readonly SpelledPitch[]): string | null => openChord(pitches, language);

/** Reads one pitch as the player writes it; null where it is none. */
export const readPitch = (text: string): SpelledPitch | null => parsePitch(text, language);

/** Reads a row of pitches as the player writes them, those without an octave near to a home. */
export const readPitchesNear = (text: string, home: readonly SpelledPitch[]): ReturnType<typeof parsePitchesNear> =>
  parsePitchesNear(text, home, language);
