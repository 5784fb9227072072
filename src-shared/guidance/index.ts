// Guidance: the coach. Events in; the next state, advice in data and effects as data out.
// Knows: order of moves, passes, how pegs pull at other strings, lead, when a course has landed, when to stop. Must not know: samples, storage, wording of screens beyond `why`.
// Add here: an event or an effect as a member of its union, handled in coach.ts; a cause of movement in standing.ts. The coach stays a pure function.
// Courses are places from the player's eye down, from 0, in events, advice and effects alike.

export { start, step } from './coach.ts';
export { hear, listenFor, listenForStrum, type Heard } from './hear.ts';
export { advise, currentString } from './advice.ts';
export { centsToGo } from './passes.ts';
export type { Advice, CoachEvent, CoachState, Effect, Pull, StringState, StrumHeard, Strummed, StrumVerdict } from './state.ts';
export { driftBetween, type Drift } from './drift.ts';
export type { CoachString, Learned, LearnedRetune, Setup } from './setup.ts';
export { learn, type Lessons } from './learned.ts';
