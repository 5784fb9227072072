import { z } from 'zod';
import { materials } from '#shared/units/index.ts';
import { at, id, place, type Retune } from './rows.ts';

/** What the player wrote down about an instrument. One that replaces an earlier note stands in its place; with no words it takes it back. */
export const noteSchema = z
  .strictObject({ id, instrumentId: id, at, words: z.string().trim().max(2000), replaces: id.nullable() })
  .refine(({ words, replaces }) => words !== '' || replaces !== null, 'Write a few words.');

/** One string of a set that was changed by itself, and what is on there now: from then on it is another string, with a history of its own. */
export const stringChangeSchema = z.strictObject({
  id,
  stringSetId: id,
  at,
  ...place,
  material: z.enum(materials),
  wound: z.boolean(),
  diameterMillimetres: z.number().min(0.1).max(4).nullable(),
  words: z.string().trim().max(200),
});

export const warningKinds = ['slips', 'keeps-slipping'] as const;

/** The player has seen a warning about a string. It stays seen until the string slips anew. */
export const warningSeenSchema = z.strictObject({ id, stringSetId: id, at, ...place, kind: z.enum(warningKinds) });

/** The reminder of when to listen again is put off; the latest row of a string set holds. */
export const snoozeSchema = z.strictObject({ id, stringSetId: id, at, until: at });

/** A reading that the player marks as wrong or, with `isWrong` false, as right after all; the latest row holds. */
export const correctionSchema = z.strictObject({ id, readingId: id, at, isWrong: z.boolean() });

/** A string change that the player takes back or, with `isWrong` false, lets stand after all; the latest row holds. */
export const changeCorrectionSchema = z.strictObject({ id, stringChangeId: id, at, isWrong: z.boolean() });

export type Note = z.infer<typeof noteSchema>;
export type StringChange = z.infer<typeof stringChangeSchema>;
export type WarningKind = (typeof warningKinds)[number];
export type WarningSeen = z.infer<typeof warningSeenSchema>;
export type Snooze = z.infer<typeof snoozeSchema>;
export type Correction = z.infer<typeof correctionSchema>;
export type ChangeCorrection = z.infer<typeof changeCorrectionSchema>;

/** A warning about a string, and since when there is what it warns of, in epoch milliseconds. */
export type Warning = { readonly kind: WarningKind; readonly since: number };

/** *Keeps slipping* is told from so many retunes. */
const retunesOfEvidence = 3;

/** The warning about a string, from what settling found in the retunes of its set (oldest first); null where there is nothing to warn of. */
export function warningOf(
  { slips, keepsSlipping }: { readonly slips: readonly { readonly atSeconds: number }[]; readonly keepsSlipping: boolean },
  retunes: readonly Pick<Retune, 'startedAt'>[],
): Warning | null {
  const last = slips.at(-1);
  if (last !== undefined) return { kind: keepsSlipping ? 'keeps-slipping' : 'slips', since: last.atSeconds * 1000 };
  return keepsSlipping ? { kind: 'keeps-slipping', since: retunes.slice(-retunesOfEvidence)[0]?.startedAt ?? 0 } : null;
}

/** Whether the player has seen a warning about a string. Having seen that it keeps slipping, they need not be told that it slips. */
export const isSeen = (
  { kind, since }: Warning,
  { course, string }: { readonly course: number; readonly string: number },
  seen: readonly WarningSeen[],
): boolean =>
  seen.some(
    (row) => row.course === course && row.string === string && row.at >= since && (row.kind === kind || row.kind === 'keeps-slipping'),
  );
