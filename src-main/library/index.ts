// Library: the SQLite file with instruments, string sets, tunings, songs, the log and the settings; its backups and its recovery.
// Knows: tables, migrations, how a row becomes a data type again. Must not know: requests, hosts, what a change is for.
// Add here: a column as a new migration (a row in migrations/index.ts), its type in tables.ts, its place in the repository of its table.
// Every repository function takes the rows of a library or of a transaction. Times are epoch milliseconds and come in as values.

export { openLibrary, type Library, type Notice } from './open.ts';
export { asFailure } from './faults.ts';
export type { Origin, Tables } from './tables.ts';
export {
  findStringSet,
  findStringSets,
  listEveryInstrument,
  listFittedStringSets,
  listInstruments,
  listStringSets,
  putInstrument,
  putStringSet,
  setInstrumentRemoved,
  setInstrumentTuning,
} from './instruments.ts';
export { listEveryTuning, listTunings, needOfTuning, putTuning, setTuningRemoved, tuningsOfSets } from './tunings.ts';
export { deleteSong, listSongs, putSong } from './songs.ts';
export { putSettings, readSettings } from './settings.ts';
export { addReadings, addRetune, addTurns, finishRetune, hasHistory } from './log.ts';
export { lastRetunes, lastTurnsOfFitted, retunesOfOtherStrings, setsOfRetunes, turnsOf } from './log.ts';
export { type Bucket, lastReadingsOfFitted, readingsOf, readingsSummedUp, type Span } from './readings.ts';
export {
  addRemarks,
  changesOf,
  changesOfSameString,
  type Remarks,
  snoozedUntil,
  standingNotes,
  warningsSeenOf,
  wrongReadings,
} from './remarks.ts';
export { countReadings, lastHeardAt, type NumberedReading, readingsPage, wholeLog } from './whole-log.ts';
export { changesSoFar, type Judgement, keepJudgements, keptJudgements } from './judgements.ts';
export { absentFrom, deleteDemoRows, hasDemoRows } from './demo-rows.ts';
