// Strung: an instrument with the strings that are on it, as the thinking rooms ask for it.
// Knows: how a row of the library and its log become a question of settling or of guidance. Must not know: storage, screens, what is answered.
// Add here: a fact that a thinking room asks of a string and that rows of the library tell.

export { daysSinceChanged, daysSinceFitted } from './age.ts';
export { coachInstrument } from './coach-instrument.ts';
export { horizonSeconds, isDueAgain, judgeStrings, retunesRead, type StringVerdict } from './judge.ts';
