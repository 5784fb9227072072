// Matching: which course is sounding?
// Knows: present and wanted pitches, which course was asked for. Must not know: plans, tolerance, strings' pull, screens.
// Add here: a reason to refuse. When in doubt it says what could be meant instead of guessing.

export { matchFrame, type Match, type MatchContext, type Strings } from './match.ts';
