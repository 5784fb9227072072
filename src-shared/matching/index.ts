// Matching: which course is sounding?
// Knows: present and wanted pitches, which course was asked for. Must not know: plans, tolerance, strings' pull, screens.
// Add here: a reason to refuse. When in doubt it says what could be meant instead of guessing.

export { matchAs, matchFrame, surelyMatched, type Match, type MatchContext, type Strings } from './match.ts';
export { soundsFretted } from './fretted.ts';
export { readCourse, type CourseHeard, type HeardPitch, type StringHeard } from './course.ts';
export { whichTuning, type Named, type RankedTuning, type TuningAnswer, type TuningCandidate } from './which-tuning.ts';
export { isNewPluck, pluckedAtOf, pluckedOf, type Plucked } from './plucks.ts';
