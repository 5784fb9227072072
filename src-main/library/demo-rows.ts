import { type Kysely, sql } from 'kysely';
import type { Tables } from './tables.ts';

/** Whether the demo library is loaded. */
export async function hasDemoRows(rows: Kysely<Tables>): Promise<boolean> {
  const found = await sql`
    SELECT 1 FROM instruments WHERE origin = 'demo' UNION ALL SELECT 1 FROM tunings WHERE origin = 'demo' LIMIT 1`.execute(rows);
  return found.rows.length > 0;
}

/** Those of the candidates whose id the table does not have yet. */
export async function absentFrom<Row extends { readonly id: string }>(
  rows: Kysely<Tables>,
  table: 'instruments' | 'stringSets' | 'tunings' | 'songs',
  candidates: readonly Row[],
): Promise<Row[]> {
  const present = new Set((await rows.selectFrom(table).select('id').execute()).map(({ id }) => id));
  return candidates.filter(({ id }) => !present.has(id));
}

/** From the rows that lean on others to those that are leaned on, so that one pass is enough. */
const steps = [
  `DELETE FROM judgements`,
  ...['changeCorrections', 'corrections', 'snoozes', 'warningsSeen', 'stringChanges', 'notes'].map(
    (table) => `DELETE FROM ${table} WHERE origin = 'demo'`,
  ),
  `DELETE FROM readings WHERE origin = 'demo'`,
  `DELETE FROM turns WHERE origin = 'demo'`,
  `DELETE FROM retunes WHERE origin = 'demo'
    AND id NOT IN (SELECT retuneId FROM turns) AND id NOT IN (SELECT retuneId FROM readings WHERE retuneId IS NOT NULL)`,
  `DELETE FROM songs WHERE origin = 'demo'`,
  `DELETE FROM instruments WHERE origin = 'demo'
    AND id NOT IN (SELECT instrumentId FROM retunes) AND id NOT IN (SELECT instrumentId FROM songs WHERE instrumentId IS NOT NULL)
    AND id NOT IN (SELECT instrumentId FROM notes)
    AND NOT EXISTS (SELECT 1 FROM stringSets JOIN stringChanges ON stringChanges.stringSetId = stringSets.id
      WHERE stringSets.instrumentId = instruments.id)
    AND NOT EXISTS (SELECT 1 FROM stringSets JOIN readings ON readings.stringSetId = stringSets.id WHERE stringSets.instrumentId = instruments.id)
    AND NOT EXISTS (SELECT 1 FROM stringSets WHERE stringSets.instrumentId = instruments.id AND stringSets.origin = 'player')`,
  `DELETE FROM stringSets WHERE origin = 'demo' AND instrumentId NOT IN (SELECT id FROM instruments)`,
  `DELETE FROM tunings WHERE origin = 'demo'
    AND id NOT IN (SELECT tuningId FROM instruments WHERE tuningId IS NOT NULL) AND id NOT IN (SELECT tuningId FROM songs WHERE tuningId IS NOT NULL)
    AND id NOT IN (SELECT fromTuningId FROM retunes WHERE fromTuningId IS NOT NULL)
    AND id NOT IN (SELECT toTuningId FROM retunes WHERE toTuningId IS NOT NULL)`,
  ...['retunes', 'instruments', 'stringSets', 'tunings'].map((table) => `UPDATE ${table} SET origin = 'player' WHERE origin = 'demo'`),
];

/**
 * Takes the demo rows out again, and no other row. What the player has meanwhile used – an instrument retuned or heard, a tuning it stands in –
 * stays with what it needs, as the player's own. Run it inside a transaction.
 */
export async function deleteDemoRows(rows: Kysely<Tables>): Promise<void> {
  for (const step of steps) await sql.raw(step).execute(rows);
}
