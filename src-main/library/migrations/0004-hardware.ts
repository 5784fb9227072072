import { appendOnly, steps } from './steps.ts';

const origin = `origin TEXT NOT NULL CHECK (origin IN ('player', 'demo'))`;

/**
 * How an instrument holds its strings, how notes are named and whether steps are spoken; and string changes that are taken back, with the string
 * that each one took off (not known of those noted before).
 */
export const hardware = steps(
  `ALTER TABLE instruments ADD COLUMN pegs TEXT CHECK (pegs IN ('friction', 'geared', 'planetary'))`,
  `ALTER TABLE instruments ADD COLUMN bridge TEXT CHECK (bridge IN ('tied', 'slotted', 'pinned', 'tailpiece'))`,
  `ALTER TABLE instruments ADD COLUMN pegsHavePlay INTEGER NOT NULL DEFAULT 0 CHECK (pegsHavePlay IN (0, 1))`,
  `ALTER TABLE settings ADD COLUMN noteLanguage TEXT NOT NULL DEFAULT 'english'`,
  `ALTER TABLE settings ADD COLUMN speaks INTEGER NOT NULL DEFAULT 0 CHECK (speaks IN (0, 1))`,
  `ALTER TABLE stringChanges ADD COLUMN replaced TEXT CHECK (json_valid(replaced))`,
  `CREATE TABLE changeCorrections (
    id TEXT NOT NULL PRIMARY KEY,
    stringChangeId TEXT NOT NULL REFERENCES stringChanges (id) ON DELETE CASCADE,
    at INTEGER NOT NULL,
    isWrong INTEGER NOT NULL CHECK (isWrong IN (0, 1)),
    ${origin}
  ) STRICT`,
  `CREATE INDEX correctionsOfChange ON changeCorrections (stringChangeId, at)`,
  ...appendOnly('changeCorrections', 'stringChanges', 'stringChangeId'),
);
