// Hearing: from live frames to one trusted reading a pluck, without a plan: the quick check, the plucks of "What am I in?", a reference pitch, the fret check.
// Knows: frames, which course they belong to, when a pluck has been heard for long enough. Must not know: moves, aims, storage, screens.
// Add here: another thing to be told from plucks, as a file beside check.ts; steady.ts says when a pluck is read.

export { startCheck, hearPluck, type Check, type PluckReading } from './check.ts';
export { gatherPluck, nothingGathered, type Gathering } from './gather.ts';
export { referenceFrom, type HeardReference } from './reference.ts';
export { checkFrets, type FretPair, type FretReading } from './fret-check.ts';
