import { z } from 'zod';
import { instrumentSchema, stringSetSchema } from '#shared/instruments/index.ts';
import {
  changeCorrectionSchema,
  correctionSchema,
  noteSchema,
  readingSchema,
  retuneSchema,
  snoozeSchema,
  stringChangeSchema,
  turnSchema,
  warningSeenSchema,
} from '#shared/log/index.ts';
import { tuningSchema } from '#shared/tunings/index.ts';
import { songSchema } from '#shared/sets/index.ts';

/** What a library file calls itself. */
export const libraryFormatName = 'stillstring-library';
/** What this version writes; it reads every older one. */
export const libraryFileVersion = 3;

/** No more rows are read or written (own choice: a thousand instruments and 5 000 tunings, with room). */
export const greatestRows = {
  instruments: 2000,
  stringSets: 20_000,
  tunings: 20_000,
  songs: 20_000,
  retunes: 200_000,
  turns: 1_000_000,
  readings: 2_000_000,
  notes: 100_000,
  stringChanges: 100_000,
  warningsSeen: 100_000,
  snoozes: 100_000,
  corrections: 100_000,
  changeCorrections: 100_000,
} as const;

/** A list of rows in the file. */
export type Part = keyof typeof greatestRows;

/** The row of each list. */
export const rowSchemas = {
  instruments: instrumentSchema,
  stringSets: stringSetSchema,
  tunings: tuningSchema,
  songs: songSchema,
  retunes: retuneSchema,
  turns: turnSchema,
  readings: readingSchema,
  notes: noteSchema,
  stringChanges: stringChangeSchema,
  warningsSeen: warningSeenSchema,
  snoozes: snoozeSchema,
  corrections: correctionSchema,
  changeCorrections: changeCorrectionSchema,
} as const satisfies Record<Part, z.ZodType>;

/**
 * A whole library as one JSON file. Where `relativeTimes` is set (the demo library, which is always about this evening), the times of the log
 * are milliseconds before the moment of loading, else epoch milliseconds.
 */
export const libraryFileSchema = z.strictObject({
  format: z.literal(libraryFormatName),
  version: z.literal(libraryFileVersion),
  relativeTimes: z.boolean(),
  instruments: z.array(rowSchemas.instruments).max(greatestRows.instruments),
  stringSets: z.array(rowSchemas.stringSets).max(greatestRows.stringSets),
  tunings: z.array(rowSchemas.tunings).max(greatestRows.tunings),
  songs: z.array(rowSchemas.songs).max(greatestRows.songs),
  retunes: z.array(rowSchemas.retunes).max(greatestRows.retunes),
  turns: z.array(rowSchemas.turns).max(greatestRows.turns),
  readings: z.array(rowSchemas.readings).max(greatestRows.readings),
  notes: z.array(rowSchemas.notes).max(greatestRows.notes),
  stringChanges: z.array(rowSchemas.stringChanges).max(greatestRows.stringChanges),
  warningsSeen: z.array(rowSchemas.warningsSeen).max(greatestRows.warningsSeen),
  snoozes: z.array(rowSchemas.snoozes).max(greatestRows.snoozes),
  corrections: z.array(rowSchemas.corrections).max(greatestRows.corrections),
  changeCorrections: z.array(rowSchemas.changeCorrections).max(greatestRows.changeCorrections),
});

export type LibraryFile = z.infer<typeof libraryFileSchema>;
/** What a library file holds, without its head. */
export type LibraryRows = Omit<LibraryFile, 'format' | 'version' | 'relativeTimes'>;
/** The part of them that is the log. */
export type LogOfFile = Omit<LibraryRows, 'instruments' | 'stringSets' | 'tunings' | 'songs'>;
