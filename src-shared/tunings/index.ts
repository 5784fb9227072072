// Tunings: the wanted open pitches of every course, stored once, with the home they were written for.
// Knows: targets, moves, carrying to another instrument, what is re-entrant. Must not know: pull and margins, the log, files, screens.
// Add here: a starter tuning as a row in presets/ (one file a family); its contract test runs by itself.

export { tuningCourseSchema, tuningSchema, type Tuning, type TuningCourse } from './tuning.ts';
export { carry, type Carried } from './carry.ts';
export { moveOrder, movesBetween, type Move, type OpenPitches } from './moves.ts';
export { wantedHertz } from './wanted.ts';
export { tuningPresets, type TuningPreset } from './presets/index.ts';
