// Exchange: what leaves and enters the library as files or on paper.
// Knows: file formats and their versions, how a file is merged into a library, sheets for paper. Must not know: storage, screens, where a file lies.
// Add here: a format as a file of its own and a row in formats.ts; its contract test runs by itself. A newer version keeps reading every older one.

export { byEarSheet, type ByEarStep, type ByEarWay } from './by-ear.ts';
export { fileName } from './file-name.ts';
export { type Format, formats, libraryFormat } from './formats.ts';
export { greatestLibraryFile, readLibraryFile, rowsOfFile, writeLibraryFile } from './library-file.ts';
export { greatestRows, libraryFileSchema, type LibraryFile, type LibraryRows, type LogOfFile } from './library-schema.ts';
export { merge, type MergeDecision, type Merged } from './merge/merge.ts';
export {
  mergeChoices,
  type MergeChoice,
  type MergePart,
  mergeParts,
  mergePreview,
  type MergeRow,
  type MergeStanding,
  mergeStandings,
  type Present,
} from './merge/preview.ts';
export { type NamedReading, readingsCsv } from './readings-csv.ts';
export { type TuningSheet, tuningSheet } from './tuning-sheet.ts';
