// Tunings: the wanted open pitches of every course, stored once, with the home they were written for.
// Knows: targets, moves, carrying to another instrument, which rows are one tuning. Must not know: pull and margins, the log, files, screens.
// Add here: a starter tuning as a row in presets/, by the number of courses; its contract test runs by itself.
// Re-entrant or linear and the name of the chord are worked out from the pitches, never stored.

export { tuningCourseSchema, tuningSchema, type Tuning, type TuningCourse } from './tuning.ts';
export { carry, carryOrWhy, type Carried, type DoesNotApply } from './carry.ts';
export { duplicates, lyingOf, sameTuning, semitonesApart, type Lying } from './same.ts';
export { moveOrder, movesBetween, movesFromPresent, type Move, type OpenPitches, type PresentMove } from './moves.ts';
export { wantedHertz } from './wanted.ts';
export { tuningPresets, type TuningPreset } from './presets/index.ts';
