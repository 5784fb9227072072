import { z } from 'zod';
import {
  greatestRows,
  type LibraryFile,
  libraryFileSchema,
  libraryFileVersion,
  libraryFormatName,
  type LibraryRows,
  type Part,
  rowSchemas,
} from './library-schema.ts';
import { faultOfReferences } from './references.ts';

/** No longer file is read or written, in UTF-16 units: about 130 000 readings (own choice: a file is held in memory whole). */
export const greatestLibraryFile = 32 * 1024 * 1024;

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
  const file: LibraryFile = { format: libraryFormatName, version: libraryFileVersion, relativeTimes: false, ...rows };
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
  const head = z.looseObject({ format: z.literal(libraryFormatName), version: z.number().int().min(1) }).safeParse(content);
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
