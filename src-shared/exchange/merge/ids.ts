import type { LibraryRows } from '../library-schema.ts';
import { stringSetContent } from './content.ts';
import type { MergeChoice, MergePart, MergeRow, Present } from './preview.ts';

/** A row of the file and what is done with it; null where the library has it already. */
export type Planned = { readonly row: MergeRow; readonly choice: MergeChoice | null };

type Placed = { readonly id: string; readonly is: 'written' | 'same' | 'left' };

/**
 * The id that a row of the file has in the library, and what becomes of the row: written, the same as the library's own, or left out in favour of
 * the library's own. A new row that is left out has none.
 */
export type Ids = ReadonlyMap<string, Placed>;

/** The ids in the library of the planned rows of one part. */
export const idsOf = (part: MergePart, plan: readonly Planned[], newId: () => string): Ids =>
  new Map(
    plan.flatMap(({ row, choice }): [string, Placed][] => {
      if (row.part !== part) return [];
      if (choice === null || choice === 'leave')
        return row.present === null ? [] : [[row.id, { id: row.present.id, is: choice === null ? 'same' : 'left' }]];
      return [[row.id, { id: choice === 'keep-both' ? newId() : row.id, is: 'written' }]];
    }),
  );

/** The id that a string set of the file has in the library, and whether its log needs new ids too because the old ones are in use. */
export type SetIds = ReadonlyMap<string, { readonly id: string; readonly isCopy: boolean }>;

/** The ids of the string sets of the file; those of an instrument that is left out have none. A set is found again by its id, else by its content. */
export function stringSetIds(library: Present, file: Pick<LibraryRows, 'stringSets'>, instruments: Ids, newId: () => string): SetIds {
  const byId = new Map(library.stringSets.map((set) => [set.id, set]));
  const byContent = new Map(library.stringSets.map((set) => [`${set.instrumentId} ${stringSetContent(set)}`, set]));
  return new Map(
    file.stringSets.flatMap((set) => {
      const target = instruments.get(set.instrumentId);
      if (target === undefined || target.is === 'left') return [];
      const there = byId.get(set.id);
      const found = there?.instrumentId === target.id ? there : byContent.get(`${target.id} ${stringSetContent(set)}`);
      if (found !== undefined) return [[set.id, { id: found.id, isCopy: false }] as const];
      return [[set.id, there === undefined ? { id: set.id, isCopy: false } : { id: newId(), isCopy: true }] as const];
    }),
  );
}

/** The id that a row named by another has in the library; null where it is named by none, or left out. */
export const known = (ids: Ids, id: string | null): string | null => (id === null ? null : (ids.get(id)?.id ?? null));

/** The id of a row that is written; null for one that the library has already or that is left out. */
export const written = (ids: Ids, id: string): string | null => {
  const one = ids.get(id);
  return one?.is === 'written' ? one.id : null;
};
