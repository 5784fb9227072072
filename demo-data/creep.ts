// How the strings of the demo move by themselves. Every figure is ASSUMED: invented for the demo, on the scale of trade experience.
//
// The law: a turn of the peg by m cents moves the string afterwards by
//
//     drift = −rate · m/100 · log10(1 + minutes since the turn)   cents
//
// so a raised string goes flat and a lowered one sharp. The turns of a string add up, each with its own age; a turn made within three days
// of the string's fitting counts four times. Besides, tightening a string by 100 cents lets every other of the instrument down by 0.4,
// the weather moves all strings of an instrument together by a few cents over days, and since twelve days course 2 of Rook slips.
import type { StringFacts } from '#shared/settling/index.ts';
import type { VirtualString } from '#shared/simulation/strings/index.ts';

/** Cents per tenfold of time for each semitone turned, one row an instrument, from the player's eye down. */
export const creepRates = {
  'demo-wren': [1.4, 1.7, 1.5, 1.3],
  'demo-finch': [1.9, 1.6, 1.3, 1.5],
  'demo-moth': [1.7, 2.1, 2.4, 4.3],
  'demo-rook': [1.6, 1.9, 2.2, 2.9, 2.4, 2.6],
  'demo-pip': [2.3, 2.8, 2.4, 2.6],
  'demo-sedge': [2.2, 1.9, 2.7, 2.3],
} as const;

/** Cents by which the other strings give way for each cent that one is tightened. */
export const couplingShare = 0.004;

/** A string that creeps by the law above. */
export const demoString = (instrumentId: keyof typeof creepRates, course: number, facts: StringFacts): VirtualString => ({
  facts,
  law: { kind: 'logarithm', onsetMinutes: 1 },
  centsPerDecade: -(creepRates[instrumentId][course] ?? 0),
  recovery: 1,
  youngFactor: 4,
  youngDays: 3,
});
