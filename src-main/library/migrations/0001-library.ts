import { steps } from './steps.ts';

const origin = `origin TEXT NOT NULL CHECK (origin IN ('player', 'demo'))`;

/** Instruments with their string sets, tunings, songs, settings. An instrument and its string set name each other, so that check waits for the commit. */
export const library = steps(
  `CREATE TABLE tunings (
    id TEXT NOT NULL PRIMARY KEY,
    name TEXT NOT NULL,
    courses TEXT NOT NULL CHECK (json_valid(courses)),
    home TEXT NOT NULL CHECK (json_valid(home)),
    favourite INTEGER NOT NULL CHECK (favourite IN (0, 1)),
    tags TEXT NOT NULL CHECK (json_valid(tags)),
    notes TEXT NOT NULL,
    removedAt INTEGER,
    ${origin}
  ) STRICT`,
  `CREATE TABLE instruments (
    id TEXT NOT NULL PRIMARY KEY,
    name TEXT NOT NULL,
    presetId TEXT NOT NULL,
    kind TEXT NOT NULL,
    scaleLengthMillimetres REAL NOT NULL,
    frets INTEGER NOT NULL,
    leftHanded INTEGER NOT NULL CHECK (leftHanded IN (0, 1)),
    upsideDown INTEGER NOT NULL CHECK (upsideDown IN (0, 1)),
    inputLabel TEXT,
    inputChannel INTEGER NOT NULL,
    stringSetId TEXT NOT NULL REFERENCES stringSets (id) DEFERRABLE INITIALLY DEFERRED,
    tuningId TEXT REFERENCES tunings (id),
    removedAt INTEGER,
    ${origin}
  ) STRICT`,
  `CREATE TABLE stringSets (
    id TEXT NOT NULL PRIMARY KEY,
    instrumentId TEXT NOT NULL REFERENCES instruments (id) DEFERRABLE INITIALLY DEFERRED,
    name TEXT NOT NULL,
    fittedAt INTEGER NOT NULL,
    courses TEXT NOT NULL CHECK (json_valid(courses)),
    ${origin}
  ) STRICT`,
  `CREATE INDEX stringSetsOfInstrument ON stringSets (instrumentId)`,
  `CREATE TABLE songs (
    id TEXT NOT NULL PRIMARY KEY,
    title TEXT NOT NULL,
    key TEXT,
    tuningId TEXT REFERENCES tunings (id),
    instrumentId TEXT REFERENCES instruments (id),
    ${origin}
  ) STRICT`,
  `CREATE TABLE settings (
    id INTEGER PRIMARY KEY CHECK (id = 1),
    referenceHertz REAL NOT NULL,
    toleranceCents REAL NOT NULL,
    theme TEXT NOT NULL,
    soundCues INTEGER NOT NULL CHECK (soundCues IN (0, 1)),
    microphoneLabel TEXT
  ) STRICT`,
);
