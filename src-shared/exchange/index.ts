// Exchange: what leaves and enters the library as files.
// Knows: file formats, their versions, how an older one is read. Must not know: storage, screens, where a file lies.
// Add here: a format as a file of its own; a newer version keeps reading every older one.

export { libraryFileSchema, readLibraryFile, type LibraryFile } from './library-file.ts';
