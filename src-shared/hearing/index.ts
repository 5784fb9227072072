// Hearing: from live frames to one trusted reading a pluck, without a plan: the quick check of an instrument that is in its tuning.
// Knows: frames, which course they belong to, when a pluck has been heard for long enough. Must not know: moves, aims, storage, screens.

export { startCheck, hearPluck, type Check, type PluckReading } from './check.ts';
