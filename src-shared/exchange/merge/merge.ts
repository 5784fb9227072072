import type { LibraryRows } from '../library-schema.ts';
import { type Ids, idsOf, known, type SetIds, stringSetIds, written } from './ids.ts';
import { logOf } from './log.ts';
import { type MergeChoice, type MergePart, mergePreview, type MergeRow, type Present } from './preview.ts';

/** What the player chose for rows of a file, by part and id; a row without one takes the first of its choices. */
export type MergeDecision = { readonly part: MergePart; readonly id: string; readonly choice: MergeChoice };

type IdsByPart = Readonly<Record<MergePart, readonly string[]>>;

/** What a merge writes: rows with the ids that they get in the library. Rows of the log whose id is there already are to be left as they are. */
export type Merged = {
  readonly rows: LibraryRows;
  /** Rows that the library did not show, by the ids that they get. */
  readonly added: IdsByPart;
  /** Rows of the library that get another content. */
  readonly replaced: IdsByPart;
};

/**
 * Works out what taking in a file writes. Nothing of the library is lost but what the player said to replace: a row kept beside another gets a
 * new id, and everything in the file that names it follows. `newId` gives an id that the library does not have.
 * Throws RangeError for a decision that the row does not offer.
 */
export function merge(library: Present, file: LibraryRows, decisions: readonly MergeDecision[], newId: () => string): Merged {
  const decided = new Map(decisions.map(({ part, id, choice }) => [`${part} ${id}`, choice]));
  const plan = mergePreview(library, file).map((row) => ({ row, choice: choiceFor(row, decided.get(`${row.part} ${row.id}`)) }));
  const ids = {
    instruments: idsOf('instruments', plan, newId),
    tunings: idsOf('tunings', plan, newId),
    songs: idsOf('songs', plan, newId),
  };
  const sets = stringSetIds(library, file, ids.instruments, newId);
  const chosen = (...choices: readonly MergeChoice[]): IdsByPart => {
    const of = (part: MergePart): readonly string[] =>
      plan.flatMap(({ row, choice }) => {
        const id = ids[part].get(row.id)?.id;
        return row.part === part && choice !== null && choices.includes(choice) && id !== undefined ? [id] : [];
      });
    return { instruments: of('instruments'), tunings: of('tunings'), songs: of('songs') };
  };
  return {
    rows: { ...thingsOf(library, file, ids, sets), ...logOf(file, ids, sets, newId) },
    added: chosen('add', 'keep-both'),
    replaced: chosen('replace'),
  };
}

/** The choice that holds for a row; null where it is in the library already. */
function choiceFor({ part, id, choices }: MergeRow, decided: MergeChoice | undefined): MergeChoice | null {
  if (decided !== undefined && !choices.includes(decided))
    throw new RangeError(`${decided} is not among the choices of ${part} ${id}: ${choices.join(', ')}`);
  return decided ?? choices[0] ?? null;
}

function thingsOf(
  library: Present,
  file: LibraryRows,
  ids: Readonly<Record<MergePart, Ids>>,
  sets: SetIds,
): Pick<LibraryRows, 'instruments' | 'stringSets' | 'tunings' | 'songs'> {
  const present = new Set(library.stringSets.map(({ id }) => id));
  return {
    tunings: file.tunings.flatMap((tuning) => {
      const id = written(ids.tunings, tuning.id);
      return id === null ? [] : [{ ...tuning, id }];
    }),
    instruments: file.instruments.flatMap((instrument) => {
      const [id, set] = [written(ids.instruments, instrument.id), sets.get(instrument.stringSetId)];
      if (id === null || set === undefined) return [];
      return [{ ...instrument, id, stringSetId: set.id, tuningId: known(ids.tunings, instrument.tuningId) }];
    }),
    stringSets: file.stringSets.flatMap((set) => {
      const [target, instrumentId] = [sets.get(set.id), known(ids.instruments, set.instrumentId)];
      if (target === undefined || instrumentId === null) return [];
      // Strings that the library has stay as they are, unless their instrument is replaced.
      if (present.has(target.id) && written(ids.instruments, set.instrumentId) === null) return [];
      return [{ ...set, id: target.id, instrumentId }];
    }),
    songs: file.songs.flatMap((song) => {
      const id = written(ids.songs, song.id);
      if (id === null) return [];
      return [{ ...song, id, tuningId: known(ids.tunings, song.tuningId), instrumentId: known(ids.instruments, song.instrumentId) }];
    }),
  };
}
