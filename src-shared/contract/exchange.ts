import { z } from 'zod';
import { greatestLibraryFile, greatestRows, mergeChoices, mergeParts, mergeStandings } from '#shared/exchange/index.ts';
import { instrumentSchema, stringSetSchema } from '#shared/instruments/index.ts';
import { songSchema } from '#shared/sets/index.ts';
import { tuningSchema } from '#shared/tunings/index.ts';

const id = z.string().min(1).max(64);
const ids = z.array(id).max(20_000);

/** The text of a library file. */
export const libraryTextSchema = z.string().max(greatestLibraryFile, 'This file is too large for a library file.');

/** What the player chose for rows of a file; a row without a decision takes the choice that loses nothing. */
export const importDecisionsSchema = z
  .array(z.strictObject({ part: z.enum(mergeParts), id, choice: z.enum(mergeChoices) }))
  .max(greatestRows.instruments + greatestRows.tunings + greatestRows.songs);

/** A file row by row, before anything is taken in, and how much of the log comes with it. */
export const importPreviewSchema = z.strictObject({
  rows: z.array(
    z.strictObject({
      part: z.enum(mergeParts),
      id,
      name: z.string(),
      standing: z.enum(mergeStandings),
      present: z.strictObject({ id, name: z.string() }).nullable(),
      choices: z.array(z.enum(mergeChoices)),
    }),
  ),
  retunes: z.number().int().nonnegative(),
  readings: z.number().int().nonnegative(),
});

/** What was taken in, so that it can be taken out again: the ids of new rows, and replaced rows as they were. The log keeps what was added to it. */
export const importReceiptSchema = z.strictObject({
  added: z.strictObject({ instruments: ids, tunings: ids, songs: ids }),
  before: z.strictObject({
    instruments: z.array(instrumentSchema).max(greatestRows.instruments),
    stringSets: z.array(stringSetSchema).max(greatestRows.stringSets),
    tunings: z.array(tuningSchema).max(greatestRows.tunings),
    songs: z.array(songSchema).max(greatestRows.songs),
  }),
});

export type ImportPreview = z.infer<typeof importPreviewSchema>;
export type ImportReceipt = z.infer<typeof importReceiptSchema>;
