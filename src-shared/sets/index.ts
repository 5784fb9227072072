// Sets: songs, and later the evening's set list and its plan.
// Knows: songs and which tuning each is played in. Must not know: strings, pull, the log, screens.

export { songSchema, type Song } from './song.ts';
