// Music: spelled pitches and the intervals between them, over tonal.
// Knows: letters, accidentals, octaves, intervals, keys, chord names, three note-name languages. Must not know: strings, instruments, files, screens.
// Add here: a note-name language in names.ts (read and written both ways), a spelling rule in spelling.ts.
// A pitch keeps the spelling that it was given; pitches are compared by MIDI number.

export {
  parsePitch,
  parsePitches,
  pitchSchemaPattern,
  pitchMidi,
  pitchHertz,
  pitchClass,
  writtenPitch,
  writtenPitchIn,
  type SpelledPitch,
} from './pitch.ts';
export { noteLanguages, type NoteLanguage } from './names.ts';
export { parsePitchesNear } from './row.ts';
export { keyNotes, modes, spellInKey, spellTogether, type Key, type Mode } from './spelling.ts';
export { distance, semitonesBetween, transpose, writtenInterval, type SpelledInterval } from './interval.ts';
export { openChord } from './chord.ts';
