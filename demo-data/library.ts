import { libraryFileSchema, type LibraryFile } from '#shared/exchange/index.ts';
import { instruments, songs, stringSets, tunings } from './scenario.ts';
import { withRemarks } from './remarks.ts';
import { yearOfRows } from './year.ts';

/** The library of the demo: what the player owns and knows, and a year of its log. Throws where it breaks a rule of the format. */
export const demoLibrary = (): LibraryFile =>
  libraryFileSchema.parse({
    format: 'stillstring-library',
    version: 3,
    relativeTimes: true,
    instruments,
    stringSets,
    tunings,
    songs,
    ...withRemarks(yearOfRows()),
  });

/** The library as text: one row a line, so that a change of one row is a change of one line. */
export function libraryText(library: LibraryFile): string {
  const sections = Object.entries(library).map(([name, value]) =>
    Array.isArray(value) && value.length > 0
      ? `"${name}": [\n${value.map((row) => JSON.stringify(row)).join(',\n')}\n]`
      : `"${name}": ${JSON.stringify(value)}`,
  );
  return `{\n${sections.join(',\n')}\n}\n`;
}
