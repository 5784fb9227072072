// Pitch: from samples to the frequency of a string's first partial, with its own error, or a refusal with its reason.
// Knows: samples, hertz, stiff strings. Must not know: notes, tunings, courses' names, microphones, clocks.
// Chain, wired in track: condition → onset → struck (pluck or voice) → background and handover (what rang before: lines) → search (peaks, coarse,
// plausible) → follow (spectrum, partial, refine, series with what is known of the string: memory of its stiffness, stray) → rest (with candid:
// what the errors turn out to be); hold where a string known well cannot be measured for a while.
// Several strings at once: twins (a double course that rings), strum (lineup, strings; unison and pair where lines run together).
// Add here: a stage as its own file with its source, wired in track.ts; measure it with the pitch bench before and after.

/**
 * A tracker of one string at a time, for a stream of samples. `push` takes blocks of any length and gives frames and refusals in time
 * order, at least 20 a second while a string sounds; `expect` changes the hint; `reset` forgets everything heard.
 * Throws RangeError for a sample rate outside 8000…400000 Hz.
 * `createPitchTracker({ sampleRateHertz: 48000 }).push(block)` → `[{ kind: 'frame', hertz: 261.6, sigmaCents: 0.1, … }]`.
 */
export { createPitchTracker } from './track.ts';

/**
 * The pitches of all strings from one strum: `courses` are the expected pitches in hertz, string by string; each is looked for within
 * ±60 cents; strings of the same expected pitch come in rising order. Where a string cannot be told from another, or is not heard, the reason stands in place of a number.
 * `readStrum(samples, { sampleRateHertz: 48000, courses: [[392], [262], [330], [440]] })` → `[[{ hertz, sigmaCents }], …]`.
 */
export { readStrum } from './strum.ts';
export type { StringReading as StrumReading } from './strings.ts';

export type { Hint, PitchEvent, PitchFrame, PitchRefusal, PitchTracker, RefusalReason, StringPitch } from './types.ts';
