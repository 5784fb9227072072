import type { LibraryRows } from './library-schema.ts';

const parts = [
  'instruments',
  'stringSets',
  'tunings',
  'songs',
  'retunes',
  'turns',
  'readings',
  'notes',
  'stringChanges',
  'warningsSeen',
  'snoozes',
  'corrections',
  'changeCorrections',
] as const;
type Part = (typeof parts)[number];

const idsOf = (rows: readonly { readonly id: string }[]): ReadonlySet<string> => new Set(rows.map(({ id }) => id));

/**
 * What is wrong with the way the rows of a file name one another, in a sentence; null where nothing is. An id is whole text and stands once in each
 * part, nor have an instrument, a tuning and a song the same; what a row cannot do without is there. A tuning or a song's instrument may be missing: it was removed, and the row goes on without it.
 */
export function faultOfReferences(rows: LibraryRows): string | null {
  const ids = Object.fromEntries(parts.map((part) => [part, idsOf(rows[part])])) as Readonly<Record<Part, ReadonlySet<string>>>;
  for (const part of parts) if (ids[part].size < rows[part].length) return `an id stands twice in its ${part}.`;
  for (const part of parts) for (const id of ids[part]) if (!id.isWellFormed()) return `an id of its ${part} has half a character.`;
  const named = [...ids.instruments, ...ids.tunings, ...ids.songs];
  if (new Set(named).size < named.length) return 'an instrument, a tuning or a song has the id of another.';
  const setOf = new Map(rows.stringSets.map((set) => [set.id, set]));
  for (const { name, id, stringSetId } of rows.instruments)
    if (setOf.get(stringSetId)?.instrumentId !== id) return `the strings fitted to “${name}” are not in it.`;
  for (const { name, instrumentId } of rows.stringSets)
    if (!ids.instruments.has(instrumentId)) return `the instrument that “${name}” was fitted to is not in it.`;
  for (const { instrumentId, stringSetId } of rows.retunes)
    if (setOf.get(stringSetId)?.instrumentId !== instrumentId) return 'the strings of a retune are not in it.';
  for (const { retuneId } of rows.turns) if (!ids.retunes.has(retuneId)) return 'the retune of a turned peg is not in it.';
  const hasString = ({ stringSetId, course, string }: { readonly stringSetId: string; readonly course: number; readonly string: number }) =>
    setOf.get(stringSetId)?.courses[course]?.strings[string] !== undefined;
  if (!rows.readings.every(hasString)) return 'the string of a reading is not in it.';
  for (const { retuneId } of rows.readings)
    if (retuneId !== null && !ids.retunes.has(retuneId)) return 'the retune of a reading is not in it.';
  if (!rows.stringChanges.every(hasString)) return 'the string of a string change is not in it.';
  if (!rows.warningsSeen.every(hasString)) return 'the string of a warning is not in it.';
  if (!rows.snoozes.every(({ stringSetId }) => setOf.has(stringSetId))) return 'the strings of a reminder are not in it.';
  if (!rows.notes.every(({ instrumentId }) => ids.instruments.has(instrumentId))) return 'the instrument of a note is not in it.';
  if (!rows.corrections.every(({ readingId }) => ids.readings.has(readingId))) return 'the reading of a correction is not in it.';
  if (!rows.changeCorrections.every(({ stringChangeId }) => ids.stringChanges.has(stringChangeId)))
    return 'the string change that was taken back is not in it.';
  return null;
}
