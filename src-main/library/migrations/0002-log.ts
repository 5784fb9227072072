import { steps } from './steps.ts';

const origin = `origin TEXT NOT NULL CHECK (origin IN ('player', 'demo'))`;
const place = `course INTEGER NOT NULL CHECK (course BETWEEN 0 AND 11), string INTEGER NOT NULL CHECK (string BETWEEN 0 AND 2)`;

/** The log only grows: what the player did and heard is neither changed nor taken out; demo rows may go again. */
const appendOnly = (table: string): readonly string[] => [
  `CREATE TRIGGER ${table}AreNotChanged BEFORE UPDATE ON ${table} BEGIN SELECT RAISE(ABORT, 'rows of the log are not changed'); END`,
  `CREATE TRIGGER ${table}AreNotTakenOut BEFORE DELETE ON ${table} WHEN OLD.origin <> 'demo'
    BEGIN SELECT RAISE(ABORT, 'rows of the log are not taken out'); END`,
];

/** Retunes, turns, readings. */
export const log = steps(
  `CREATE TABLE retunes (
    id TEXT NOT NULL PRIMARY KEY,
    instrumentId TEXT NOT NULL REFERENCES instruments (id),
    stringSetId TEXT NOT NULL REFERENCES stringSets (id),
    fromTuningId TEXT REFERENCES tunings (id),
    toTuningId TEXT REFERENCES tunings (id),
    startedAt INTEGER NOT NULL,
    finishedAt INTEGER,
    ${origin}
  ) STRICT`,
  `CREATE INDEX retunesOfStringSet ON retunes (stringSetId, startedAt)`,
  `CREATE TABLE retuneStrings (
    retuneId TEXT NOT NULL REFERENCES retunes (id) ON DELETE CASCADE,
    ${place},
    wantedHertz REAL NOT NULL,
    PRIMARY KEY (retuneId, course, string)
  ) STRICT, WITHOUT ROWID`,
  `CREATE TABLE turns (
    id TEXT NOT NULL PRIMARY KEY,
    retuneId TEXT NOT NULL REFERENCES retunes (id),
    at INTEGER NOT NULL,
    ${place},
    cents REAL NOT NULL,
    ${origin}
  ) STRICT`,
  `CREATE INDEX turnsOfRetune ON turns (retuneId, at)`,
  `CREATE TABLE readings (
    id TEXT NOT NULL PRIMARY KEY,
    stringSetId TEXT NOT NULL REFERENCES stringSets (id),
    retuneId TEXT REFERENCES retunes (id),
    at INTEGER NOT NULL,
    ${place},
    hertz REAL NOT NULL,
    wantedHertz REAL NOT NULL,
    deviationCents REAL NOT NULL,
    sigmaCents REAL NOT NULL,
    source TEXT NOT NULL,
    ${origin}
  ) STRICT`,
  `CREATE INDEX readingsOfString ON readings (stringSetId, course, string, at)`,
  `CREATE INDEX readingsOfRetune ON readings (retuneId)`,
  ...appendOnly('turns'),
  ...appendOnly('readings'),
);
