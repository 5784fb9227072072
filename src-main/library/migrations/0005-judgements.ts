import { steps } from './steps.ts';

/** A judgement is dropped as soon as the log of its string set gets another row: what is there still holds for that log. */
const droppedAfter = (table: string, stringSetId: string): string =>
  `CREATE TRIGGER ${table}AreJudgedAnew AFTER INSERT ON ${table}
    BEGIN DELETE FROM judgements WHERE stringSetId = ${stringSetId}; END`;

/** Verdicts kept for speed. They say nothing that the log does not say, and are made again from it where they are missing. */
export const judgements = steps(
  `CREATE TABLE judgements (
    stringSetId TEXT NOT NULL PRIMARY KEY REFERENCES stringSets (id) ON DELETE CASCADE,
    facts TEXT NOT NULL,
    judgedAt INTEGER NOT NULL,
    touchedAt INTEGER NOT NULL,
    strings TEXT NOT NULL CHECK (json_valid(strings))
  ) STRICT`,
  droppedAfter('retunes', 'NEW.stringSetId'),
  droppedAfter('turns', '(SELECT stringSetId FROM retunes WHERE id = NEW.retuneId)'),
  droppedAfter('readings', 'NEW.stringSetId'),
  droppedAfter('corrections', '(SELECT stringSetId FROM readings WHERE id = NEW.readingId)'),
  droppedAfter('stringChanges', 'NEW.stringSetId'),
  droppedAfter('changeCorrections', '(SELECT stringSetId FROM stringChanges WHERE id = NEW.stringChangeId)'),
);
