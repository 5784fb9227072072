// The virtual instrument as sound: strings that creep and give way, plucked on demand, rendered block by block while their pegs are turned.
// Knows: the virtual instrument, samples, a player who goes by ear. Must not know: the tracker and the coach that listen; a guide comes in as EarGuide.
// Add here: another trait of a string's sound in voice.ts, of the player's ears and habits in ear.ts. Every random number comes from a seed.

export { createSounding, drawTimbre, type SoundingSetup } from './create.ts';
export { soundingOf, type Sounding, type SoundingOptions } from './sounding.ts';
export { pluckedVoice, type Timbre, type Voice } from './voice.ts';
export { playByEar, type EarGuide, type Manners } from './ear.ts';
