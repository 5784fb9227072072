import { z } from 'zod';
import { instrumentSchema, stringSetSchema } from '#shared/instruments/index.ts';
import { readingSchema, retuneSchema, turnSchema } from '#shared/log/index.ts';
import { tuningSchema } from '#shared/tunings/index.ts';
import { songSchema } from '#shared/sets/index.ts';

const version = 1;

/**
 * A whole library as one JSON file. Where `relativeTimes` is set (the demo library, which is always about this evening), the times of the log
 * are milliseconds before the moment of loading, else epoch milliseconds.
 */
export const libraryFileSchema = z.strictObject({
  format: z.literal('stillstring-library'),
  version: z.literal(version),
  relativeTimes: z.boolean(),
  instruments: z.array(instrumentSchema).max(500),
  stringSets: z.array(stringSetSchema).max(5000),
  tunings: z.array(tuningSchema).max(20_000),
  songs: z.array(songSchema).max(20_000),
  retunes: z.array(retuneSchema).max(200_000),
  turns: z.array(turnSchema).max(1_000_000),
  readings: z.array(readingSchema).max(2_000_000),
});

export type LibraryFile = z.infer<typeof libraryFileSchema>;

/**
 * Reads a library file. A file that is none, is newer than this version, or breaks a rule is refused with a sentence that names the place.
 * `readLibraryFile('{}')` → `{ sentence: 'This is not a Stillstring library file.' }`.
 */
export function readLibraryFile(text: string): { readonly file: LibraryFile } | { readonly sentence: string } {
  let content: unknown;
  try {
    content = JSON.parse(text);
  } catch {
    return { sentence: 'This is not a Stillstring library file: it is not JSON.' };
  }
  const head = z.object({ format: z.literal('stillstring-library'), version: z.number() }).safeParse(content);
  if (!head.success) return { sentence: 'This is not a Stillstring library file.' };
  if (head.data.version > version)
    return { sentence: `This file was written by a newer Stillstring (format ${head.data.version}); this one reads up to ${version}.` };
  const whole = libraryFileSchema.safeParse(content);
  if (whole.success) return { file: whole.data };
  const [issue] = whole.error.issues;
  return { sentence: `This library file is damaged at ${issue?.path.join('.') ?? 'an unknown place'}: ${issue?.message ?? 'unreadable'}` };
}
