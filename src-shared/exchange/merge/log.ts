import type { LibraryRows, LogOfFile } from '../library-schema.ts';
import { type Ids, known, type SetIds } from './ids.ts';
import type { MergePart } from './preview.ts';

/** The log follows its strings; it gets new ids only where the strings are a copy, because the library's own log has the old ones. */
export function logOf(file: LibraryRows, ids: Readonly<Record<MergePart, Ids>>, sets: SetIds, newId: () => string): LogOfFile {
  const retuneIds = new Map<string, string>();
  const readingIds = new Map<string, string>();
  const changeIds = new Map<string, string>();
  const retunes = file.retunes.flatMap((retune) => {
    const [set, instrumentId] = [sets.get(retune.stringSetId), known(ids.instruments, retune.instrumentId)];
    if (set === undefined || instrumentId === null) return [];
    const id = set.isCopy ? newId() : retune.id;
    retuneIds.set(retune.id, id);
    const [fromTuningId, toTuningId] = [known(ids.tunings, retune.fromTuningId), known(ids.tunings, retune.toTuningId)];
    return [{ ...retune, id, instrumentId, stringSetId: set.id, fromTuningId, toTuningId }];
  });
  /** Rows that name their string set and nothing else. */
  const ofSets = <Row extends { readonly id: string; readonly stringSetId: string }>(rows: readonly Row[]): Row[] =>
    rows.flatMap((row) => {
      const set = sets.get(row.stringSetId);
      return set === undefined ? [] : [{ ...row, id: set.isCopy ? newId() : row.id, stringSetId: set.id }];
    });
  return {
    retunes,
    turns: file.turns.flatMap((turn) => {
      const retuneId = retuneIds.get(turn.retuneId);
      return retuneId === undefined ? [] : [{ ...turn, id: retuneId === turn.retuneId ? turn.id : newId(), retuneId }];
    }),
    readings: file.readings.flatMap((reading) => {
      const [row] = ofSets([reading]);
      if (row === undefined) return [];
      readingIds.set(reading.id, row.id);
      return [{ ...row, retuneId: reading.retuneId === null ? null : (retuneIds.get(reading.retuneId) ?? null) }];
    }),
    notes: notesOf(file, ids, newId),
    stringChanges: file.stringChanges.flatMap((change) => {
      const [row] = ofSets([change]);
      if (row === undefined) return [];
      changeIds.set(change.id, row.id);
      return [row];
    }),
    warningsSeen: ofSets(file.warningsSeen),
    snoozes: ofSets(file.snoozes),
    corrections: file.corrections.flatMap((row) => {
      const readingId = readingIds.get(row.readingId);
      return readingId === undefined ? [] : [{ ...row, id: readingId === row.readingId ? row.id : newId(), readingId }];
    }),
    changeCorrections: file.changeCorrections.flatMap((row) => {
      const stringChangeId = changeIds.get(row.stringChangeId);
      return stringChangeId === undefined ? [] : [{ ...row, id: stringChangeId === row.stringChangeId ? row.id : newId(), stringChangeId }];
    }),
  };
}

/** Notes follow their instrument. Those of one that is kept beside another are copies, and what they replace follows. */
function notesOf(file: LibraryRows, { instruments }: Readonly<Record<MergePart, Ids>>, newId: () => string): LibraryRows['notes'] {
  const noteIds = new Map<string, string>();
  const come = file.notes.flatMap((note) => {
    const place = instruments.get(note.instrumentId);
    if (place === undefined || place.is === 'left') return [];
    const isCopy = place.is === 'written' && place.id !== note.instrumentId;
    const id = isCopy ? newId() : note.id;
    noteIds.set(note.id, id);
    return [{ ...note, id, instrumentId: place.id }];
  });
  return come.map((note) => ({ ...note, replaces: note.replaces === null ? null : (noteIds.get(note.replaces) ?? note.replaces) }));
}
