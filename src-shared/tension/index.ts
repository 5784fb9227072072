// Tension: what a string pulls at a pitch, how near it is to breaking and how far from too slack, and the cautions that belong to it.
// Knows: linear density, material limits, scale length. Must not know: notes, tunings, screens.
// Add here: a material (its density and limit with the source), a caution. Figures from a gauge are estimates and say so with a band.

export {
  densityFromPull,
  densityFromUnitWeight,
  linearDensity,
  woundLinearDensity,
  type Estimate,
  type LinearDensity,
} from './linear-density.ts';
export { pullAt, tensionNewtons, tensionRatio, totalPull } from './pull.ts';
export { breakLimit, type BreakingString, type BreakLimit } from './break-limit.ts';
export {
  breakMarginSemitones,
  breakShare,
  breakShareBand,
  cautionShare,
  confirmShare,
  highShare,
  slackMarginSemitones,
  slackShare,
} from './margin.ts';
export { judgeMove, type MoveJudgement, type MoveVerdict, type StringMove } from './string-move.ts';
export { cautionLoadRise, confirmLoadRise, judgeLoad, type Load } from './load.ts';
export { cautions, cautionSentence, type Caution, type CautionId } from './cautions.ts';
