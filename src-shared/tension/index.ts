// Tension: what a string pulls at a pitch, how near it is to breaking and how far from too slack.
// Knows: linear density, material limits, scale length. Must not know: notes, tunings, the screen's wording.
// Add here: a material (its density and limit with the source). Figures from a gauge are estimates and say so with a band.

export { linearDensity, type LinearDensity } from './linear-density.ts';
export { tensionNewtons, tensionRatio } from './pull.ts';
export { breakMarginSemitones, breakShare, cautionShare, confirmShare, slackMarginSemitones } from './margin.ts';
