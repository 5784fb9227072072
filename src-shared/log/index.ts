// Log: what was done to strings and heard from them. Rows are only ever appended; a correction is a new row.
// Knows: retunes, turns of a peg, readings, the player's own remarks, and how rows become the history of one string. Must not know: verdicts (settling), storage, screens.
// Add here: a kind of row, with its schema. Times are epoch milliseconds as the host stores them; `history` hands on seconds.

export { readingRow, turnRow } from './rows-of.ts';
export {
  changeCorrectionSchema,
  correctionSchema,
  isSeen,
  noteSchema,
  snoozeSchema,
  stringChangeSchema,
  warningKinds,
  warningOf,
  warningSeenSchema,
  type ChangeCorrection,
  type Correction,
  type Note,
  type Snooze,
  type StringChange,
  type Warning,
  type WarningKind,
  type WarningSeen,
} from './remarks.ts';
export { readingSchema, readingSources, retuneSchema, turnSchema } from './rows.ts';
export type { LogRows, Reading, ReadingSource, Retune, Turn } from './rows.ts';
export {
  lastHeard,
  presentHertz,
  retuneHistories,
  stringHistory,
  type StringHistory,
  type TurnedSinceHeard,
  turnedSinceHeard,
} from './history.ts';
