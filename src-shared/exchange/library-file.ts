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
import { faultOfReferences } from './references.ts';

const format = 'stillstring-library';
/** What this version writes; it reads every older one. */
export const libraryFileVersion = 3;

/** No longer file is read or written, in UTF-16 units: about 130 000 readings (own choice: a file is held in memory whole). */
export const greatestLibraryFile = 32 * 1024 * 1024;

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

type Part = keyof typeof greatestRows;

/**
 * A whole library as one JSON file. Where `relativeTimes` is set (the demo library, which is always about this evening), the times of the log
 * are milliseconds before the moment of loading, else epoch milliseconds.
 */
export const libraryFileSchema = z.strictObject({
  format: z.literal(format),
  version: z.literal(libraryFileVersion),
  relativeTimes: z.boolean(),
  instruments: z.array(instrumentSchema).max(greatestRows.instruments),
  stringSets: z.array(stringSetSchema).max(greatestRows.stringSets),
  tunings: z.array(tuningSchema).max(greatestRows.tunings),
  songs: z.array(songSchema).max(greatestRows.songs),
  retunes: z.array(retuneSchema).max(greatestRows.retunes),
  turns: z.array(turnSchema).max(greatestRows.turns),
  readings: z.array(readingSchema).max(greatestRows.readings),
  notes: z.array(noteSchema).max(greatestRows.notes),
  stringChanges: z.array(stringChangeSchema).max(greatestRows.stringChanges),
  warningsSeen: z.array(warningSeenSchema).max(greatestRows.warningsSeen),
  snoozes: z.array(snoozeSchema).max(greatestRows.snoozes),
  corrections: z.array(correctionSchema).max(greatestRows.corrections),
  changeCorrections: z.array(changeCorrectionSchema).max(greatestRows.changeCorrections),
});

export type LibraryFile = z.infer<typeof libraryFileSchema>;
/** What a library file holds, without its head. */
export type LibraryRows = Omit<LibraryFile, 'format' | 'version' | 'relativeTimes'>;
/** The part of them that is the log. */
export type LogOfFile = Omit<LibraryRows, 'instruments' | 'stringSets' | 'tunings' | 'songs'>;

/** What older versions lacked or said otherwise: `upgrades[0]` makes a file of version 2 out of one of version 1, and so on. */
const upgrades: readonly ((older: Readonly<Record<string, unknown>>) => Readonly<Record<string, unknown>>)[] = [
  (older) => ({ ...older, version: 2, notes: [], stringChanges: [], warningsSeen: [], snoozes: [], corrections: [] }),
  (older) => ({
    ...older,
    version: 3,
    instruments: eachObject(older['instruments'], (row) => ({ ...row, pegs: null, bridge: null, pegsHavePlay: false })),
    changeCorrections: [],
  }),
];

/** Changes every object in a list, if it is one: what it really is has not been looked at yet. */
const eachObject = (list: unknown, change: (row: object) => object): unknown =>
  Array.isArray(list) ? list.map((row: unknown) => (typeof row === 'object' && row !== null ? change(row) : row)) : list;

/** A library as the text of a file, its times as they are. Throws RangeError beyond `greatestRows` or `greatestLibraryFile`. */
export function writeLibraryFile(rows: LibraryRows): string {
  for (const [part, most] of Object.entries(greatestRows) as [Part, number][])
    if (rows[part].length > most) throw new RangeError(`a library file has at most ${most} ${part}, not ${rows[part].length}`);
  const file: LibraryFile = { format, version: libraryFileVersion, relativeTimes: false, ...rows };
  const text = JSON.stringify(file);
  if (text.length > greatestLibraryFile)
    throw new RangeError(`a library file has at most ${greatestLibraryFile} characters, not ${text.length}`);
  return text;
}

/**
 * Reads a library file, of this version or an older one. A file that is none, is too large, is newer than this version, or breaks a rule is
 * refused with a sentence that names the place. `readLibraryFile('{}')` → `{ sentence: 'This is not a Stillstring library file.' }`.
 */
export function readLibraryFile(text: string): { readonly file: LibraryFile } | { readonly sentence: string } {
  if (text.length > greatestLibraryFile)
    return { sentence: `This file is too large: a library file has at most ${greatestLibraryFile / 1024 / 1024} million characters.` };
  let content: unknown;
  try {
    content = JSON.parse(text);
  } catch {
    return { sentence: 'This is not a Stillstring library file: it is not JSON.' };
  }
  const head = z.looseObject({ format: z.literal(format), version: z.number().int().min(1) }).safeParse(content);
  if (!head.success) return { sentence: 'This is not a Stillstring library file.' };
  if (head.data.version > libraryFileVersion)
    return {
      sentence: `This file was written by a newer Stillstring (format ${head.data.version}); this one reads up to ${libraryFileVersion}.`,
    };
  const current = upgrades
    .slice(head.data.version - 1)
    .reduce<unknown>((older, upgrade) => upgrade(older as Record<string, unknown>), content);
  const frame = frameSchema.safeParse(current);
  if (!frame.success) return damaged(frame.error);
  for (const part of Object.keys(rowSchemas) as Part[])
    for (const [at, row] of frame.data[part].entries()) {
      const parsed = rowSchemas[part].safeParse(row);
      if (!parsed.success) return damaged(parsed.error, part, at);
      frame.data[part][at] = parsed.data;
    }
  const file = frame.data as LibraryFile;
  const fault = faultOfReferences(file);
  return fault === null ? { file } : { sentence: `This library file is damaged: ${fault}` };
}

const list = (part: Part): z.ZodArray<z.ZodUnknown> => z.array(z.unknown()).max(greatestRows[part]);

/** The file without a look into its rows: they are read one by one, so that the first bad one ends it and a million bad ones do no harm. */
const frameSchema = libraryFileSchema.extend({
  instruments: list('instruments'),
  stringSets: list('stringSets'),
  tunings: list('tunings'),
  songs: list('songs'),
  retunes: list('retunes'),
  turns: list('turns'),
  readings: list('readings'),
  notes: list('notes'),
  stringChanges: list('stringChanges'),
  warningsSeen: list('warningsSeen'),
  snoozes: list('snoozes'),
  corrections: list('corrections'),
  changeCorrections: list('changeCorrections'),
});

const rowSchemas = {
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

/** A message names what it found, which may be as long as the file. */
const longestMessage = 160;

function damaged({ issues: [issue] }: z.ZodError, ...above: readonly PropertyKey[]): { readonly sentence: string } {
  const place = [...above, ...(issue?.path ?? [])].join('.') || 'its top';
  const message = issue?.message ?? 'unreadable';
  const said = message.length > longestMessage ? `${message.slice(0, longestMessage)}…` : message;
  return { sentence: `This library file is damaged at ${place}: ${said}` };
}

/** The rows of a file with their times in epoch milliseconds; `now` is the moment that relative times count back from. */
export function rowsOfFile({ format: _format, version: _version, relativeTimes, ...rows }: LibraryFile, now: number): LibraryRows {
  const moment = (time: number): number => (relativeTimes ? now - time : time);
  const then = <Row extends { readonly at: number }>(row: Row): Row => ({ ...row, at: moment(row.at) });
  return {
    ...rows,
    stringSets: rows.stringSets.map((set) => ({ ...set, fittedAt: moment(set.fittedAt) })),
    retunes: rows.retunes.map((retune) => ({
      ...retune,
      startedAt: moment(retune.startedAt),
      finishedAt: retune.finishedAt === null ? null : moment(retune.finishedAt),
    })),
    turns: rows.turns.map(then),
    readings: rows.readings.map(then),
    notes: rows.notes.map(then),
    stringChanges: rows.stringChanges.map(then),
    warningsSeen: rows.warningsSeen.map(then),
    snoozes: rows.snoozes.map((snooze) => ({ ...then(snooze), until: moment(snooze.until) })),
    corrections: rows.corrections.map(then),
    changeCorrections: rows.changeCorrections.map(then),
  };
}
