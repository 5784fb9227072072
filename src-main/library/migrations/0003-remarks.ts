import { appendOnly, steps } from './steps.ts';

const origin = `origin TEXT NOT NULL CHECK (origin IN ('player', 'demo'))`;
const place = `course INTEGER NOT NULL CHECK (course BETWEEN 0 AND 11), string INTEGER NOT NULL CHECK (string BETWEEN 0 AND 2)`;

/** Notes, strings changed by themselves, warnings seen, reminders put off, corrections; and an index of readings that a year is drawn from. */
export const remarks = steps(
  `CREATE TABLE notes (
    id TEXT NOT NULL PRIMARY KEY,
    instrumentId TEXT NOT NULL REFERENCES instruments (id) ON DELETE CASCADE,
    at INTEGER NOT NULL,
    words TEXT NOT NULL,
    replaces TEXT,
    ${origin}
  ) STRICT`,
  `CREATE INDEX notesOfInstrument ON notes (instrumentId, at)`,
  `CREATE INDEX notesReplaced ON notes (replaces)`,
  `CREATE TABLE stringChanges (
    id TEXT NOT NULL PRIMARY KEY,
    stringSetId TEXT NOT NULL REFERENCES stringSets (id) ON DELETE CASCADE,
    at INTEGER NOT NULL,
    ${place},
    material TEXT NOT NULL,
    wound INTEGER NOT NULL CHECK (wound IN (0, 1)),
    diameterMillimetres REAL,
    words TEXT NOT NULL,
    ${origin}
  ) STRICT`,
  `CREATE INDEX changesOfString ON stringChanges (stringSetId, course, string, at)`,
  `CREATE TABLE warningsSeen (
    id TEXT NOT NULL PRIMARY KEY,
    stringSetId TEXT NOT NULL REFERENCES stringSets (id) ON DELETE CASCADE,
    at INTEGER NOT NULL,
    ${place},
    kind TEXT NOT NULL CHECK (kind IN ('slips', 'keeps-slipping')),
    ${origin}
  ) STRICT`,
  `CREATE INDEX warningsSeenOfStringSet ON warningsSeen (stringSetId, at)`,
  `CREATE TABLE snoozes (
    id TEXT NOT NULL PRIMARY KEY,
    stringSetId TEXT NOT NULL REFERENCES stringSets (id) ON DELETE CASCADE,
    at INTEGER NOT NULL,
    until INTEGER NOT NULL,
    ${origin}
  ) STRICT`,
  `CREATE INDEX snoozesOfStringSet ON snoozes (stringSetId, at)`,
  `CREATE TABLE corrections (
    id TEXT NOT NULL PRIMARY KEY,
    readingId TEXT NOT NULL REFERENCES readings (id) ON DELETE CASCADE,
    at INTEGER NOT NULL,
    isWrong INTEGER NOT NULL CHECK (isWrong IN (0, 1)),
    ${origin}
  ) STRICT`,
  `CREATE INDEX correctionsOfReading ON corrections (readingId, at)`,
  ...appendOnly('notes', 'instruments', 'instrumentId'),
  ...appendOnly('stringChanges', 'stringSets', 'stringSetId'),
  ...appendOnly('warningsSeen', 'stringSets', 'stringSetId'),
  ...appendOnly('snoozes', 'stringSets', 'stringSetId'),
  ...appendOnly('corrections', 'readings', 'readingId'),
  // A year is summed up from the index alone, without a look at the rows.
  `DROP INDEX readingsOfString`,
  `CREATE INDEX readingsOfString ON readings (stringSetId, course, string, at, deviationCents, sigmaCents)`,
);
