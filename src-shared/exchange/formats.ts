import { greatestLibraryFile, readLibraryFile, writeLibraryFile } from './library-file.ts';
import { libraryFileVersion, type LibraryRows } from './library-schema.ts';

/** A format that leaves and enters the library. `read` takes what `write` gave, whatever version wrote it. */
export type Format<Content> = {
  readonly id: string;
  readonly words: string;
  readonly version: number;
  readonly ending: string;
  readonly mediaType: string;
  readonly greatestLength: number;
  readonly write: (content: Content) => string;
  readonly read: (text: string) => { readonly content: Content } | { readonly sentence: string };
};

/** The library file. */
export const libraryFormat: Format<LibraryRows> = {
  id: 'library',
  words: 'Stillstring library',
  version: libraryFileVersion,
  ending: 'stillstring.json',
  mediaType: 'application/json',
  greatestLength: greatestLibraryFile,
  write: writeLibraryFile,
  read: (text) => {
    const read = readLibraryFile(text);
    if ('sentence' in read) return read;
    const { format: _format, version: _version, relativeTimes: _relativeTimes, ...content } = read.file;
    return { content };
  },
};

/** Every format that can be taken in; `tests/contracts/formats.test.ts` holds each to its promises. */
export const formats: readonly Format<LibraryRows>[] = [libraryFormat];
