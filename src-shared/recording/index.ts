// Recording: sound as samples, read from and written to WAV files.
// Knows: the WAVE file format. Must not know: pitch, strings, files on disk, audio devices.
// Add here: another encoding (wav-format.ts lists them, with how one sample is read), or another container in a file of its own.

export type { Recording } from './recording.ts';
export { secondsOf } from './recording.ts';
export type { ReadFailure, ReadFailureCode } from './read-wav.ts';
export { readWav } from './read-wav.ts';
export type { WavEncoding } from './write-wav.ts';
export { writeWav } from './write-wav.ts';
