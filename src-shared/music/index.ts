// Music: spelled pitches and the intervals between them, over tonal.
// Knows: letters, accidentals, octaves, intervals, chord names. Must not know: strings, instruments, files, screens.
// Add here: a note-name language or a spelling rule. A pitch keeps the spelling that it was given; pitches are compared by MIDI number.

export {
  parsePitch,
  parsePitches,
  pitchSchemaPattern,
  pitchMidi,
  pitchHertz,
  pitchClass,
  writtenPitch,
  type SpelledPitch,
} from './pitch.ts';
export { distance, semitonesBetween, transpose, writtenInterval, type SpelledInterval } from './interval.ts';
export { openChord } from './chord.ts';
