// Instruments: what a player owns – a scale length, courses of strings, string sets over time, a home tuning.
// Knows: materials, gauges, families. Must not know: what a string pulls (tension), other tunings, files, screens.
// Add here: an instrument family as a row in presets/ (one file a family); its contract test runs by itself.
// Courses are listed from the player's eye down: the first is the highest course number, the last is course 1, nearest the floor.

export {
  bridgeKinds,
  courseNumber,
  courseIndex,
  courseSchema,
  instrumentSchema,
  pegKinds,
  stringSchema,
  stringSetSchema,
} from './instrument.ts';
export {
  pitchSchema,
  homePitches,
  courseScaleLength,
  type BridgeKind,
  type Course,
  type Instrument,
  type InstrumentString,
  type PegKind,
  type StringSet,
} from './instrument.ts';
export { stringing, type Stringing } from './stringing.ts';
export { instrumentPresets, presetById, stringSetFromPreset, type InstrumentPreset } from './presets/index.ts';
