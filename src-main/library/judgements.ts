import { type Kysely, sql } from 'kysely';
import { requests, type SetVerdicts } from '#shared/contract/index.ts';
import { listOf } from './log.ts';
import type { Tables } from './tables.ts';

type Strings = SetVerdicts['strings'];

/**
 * The verdicts on a string set as they were made, kept for speed: they hold for the log as it is, for `facts` (everything else that they rest on, as a
 * text), and for a while after `judgedAt`. `touchedAt` is when the strings were last fitted, turned or heard. Epoch milliseconds.
 */
export type Judgement = {
  readonly stringSetId: string;
  readonly facts: string;
  readonly judgedAt: number;
  readonly touchedAt: number;
  readonly strings: Strings;
};

const stringsSchema = requests['verdicts.read'].output.element.shape.strings;

/** The judgements that are kept of these string sets. */
export async function keptJudgements(rows: Kysely<Tables>, stringSetIds: readonly string[]): Promise<ReadonlyMap<string, Judgement>> {
  const found = await rows.selectFrom('judgements').selectAll().where('stringSetId', 'in', listOf(stringSetIds)).execute();
  return new Map(
    found.flatMap((row) => {
      // One that an older version wrote is of no use; it is made anew.
      const strings = stringsSchema.safeParse(JSON.parse(row.strings));
      return strings.success ? [[row.stringSetId, { ...row, strings: strings.data }] as const] : [];
    }),
  );
}

/** How many rows this process has changed so far: a number that differs where anything was written meanwhile (sqlite.org/lang_corefunc.html). */
export async function changesSoFar(rows: Kysely<Tables>): Promise<number> {
  const found = await sql<{ count: number }>`SELECT total_changes() AS count`.execute(rows);
  return found.rows[0]?.count ?? 0;
}

/** Keeps judgements in place of earlier ones, unless something was written since `asOf`: it may have been a row of their logs. */
export async function keepJudgements(rows: Kysely<Tables>, judgements: readonly Judgement[], asOf: number): Promise<void> {
  await rows.transaction().execute(async (within) => {
    if ((await changesSoFar(within)) !== asOf) return;
    for (const { stringSetId, ...rest } of judgements) {
      const row = { ...rest, strings: JSON.stringify(rest.strings) };
      await within
        .insertInto('judgements')
        .values({ stringSetId, ...row })
        .onConflict((conflict) => conflict.column('stringSetId').doUpdateSet(row))
        .execute();
    }
  });
}
