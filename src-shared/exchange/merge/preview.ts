import type { LibraryRows } from '../library-schema.ts';
import { instrumentContent, songContent, tuningContent } from './content.ts';

/** What the library has, as a merge needs to know it. Rows in `removed` (their ids) were taken out by the player and can come back. */
export type Present = Pick<LibraryRows, 'instruments' | 'stringSets' | 'tunings' | 'songs'> & { readonly removed: ReadonlySet<string> };

export const mergeParts = ['instruments', 'tunings', 'songs'] as const;
export type MergePart = (typeof mergeParts)[number];

/** What may be done with a row of a file. */
export const mergeChoices = ['add', 'replace', 'keep-both', 'leave'] as const;
export type MergeChoice = (typeof mergeChoices)[number];

/** How a row of a file stands to the library: not there yet, there with the same content, or there (same id) with another. */
export const mergeStandings = ['new', 'same', 'differs'] as const;
export type MergeStanding = (typeof mergeStandings)[number];

/** A row of a file before it is taken in. `choices` is empty where there is nothing to choose; the first is the one that loses nothing. */
export type MergeRow = {
  readonly part: MergePart;
  readonly id: string;
  readonly name: string;
  readonly standing: MergeStanding;
  /** The row of the library that it is the same as, or differs from; null for a new one. */
  readonly present: { readonly id: string; readonly name: string } | null;
  readonly choices: readonly MergeChoice[];
};

type Candidate = {
  readonly id: string;
  readonly name: string;
  /** The row's content; more than one way to say it where it names other rows. */
  readonly contents: readonly string[];
  readonly isReplaceable: boolean;
};

/**
 * Compares a file with the library, row by row: what is new, what is there already (found by content, whatever its id), what differs.
 * Nothing is changed. Parts come in the order of `mergeParts`, since a song is compared by what its tuning and instrument turned out to be.
 */
export function mergePreview(library: Present, file: LibraryRows): readonly MergeRow[] {
  const instruments = compare('instruments', instrumentsOf(library), instrumentsOf(file, library), library.removed);
  const tunings = compare('tunings', tuningsOf(library), tuningsOf(file), library.removed);
  const found = new Map([...instruments, ...tunings].flatMap(({ id, present }) => (present === null ? [] : [[id, present.id]])));
  const songs = compare('songs', songsOf(library), songsOf(file, found), library.removed);
  return [...instruments, ...tunings, ...songs];
}

function compare(
  part: MergePart,
  have: readonly Candidate[],
  come: readonly Candidate[],
  removed: ReadonlySet<string>,
): readonly MergeRow[] {
  const kept = have.filter(({ id }) => !removed.has(id));
  const byId = new Map(kept.map((row) => [row.id, row]));
  const byContent = new Map(kept.flatMap((row) => row.contents.map((content) => [content, row])));
  return come.map(({ id, name, contents, isReplaceable }) => {
    const twin = byId.get(id);
    const alike = contents.flatMap((content) => byContent.get(content) ?? []);
    const same = alike.find((row) => row === twin) ?? alike[0];
    if (same !== undefined) return { part, id, name, standing: 'same', present: { id: same.id, name: same.name }, choices: [] };
    if (twin === undefined) {
      // A removed row comes back as the file has it, where its log allows.
      const choices: readonly MergeChoice[] = removed.has(id) && !isReplaceable ? ['keep-both', 'leave'] : ['add', 'leave'];
      return { part, id, name, standing: 'new', present: null, choices };
    }
    const choices: readonly MergeChoice[] = isReplaceable ? ['keep-both', 'replace', 'leave'] : ['keep-both', 'leave'];
    return { part, id, name, standing: 'differs', present: { id: twin.id, name: twin.name }, choices };
  });
}

const shape = (set: LibraryRows['stringSets'][number]): string => set.courses.map(({ strings }) => strings.length).join(' ');

/** An instrument is replaced only where the strings of all its sets stay as many as the log of the library names. */
function instrumentsOf(rows: Pick<LibraryRows, 'instruments' | 'stringSets'>, library: Present | null = null): readonly Candidate[] {
  const sets = new Map(rows.stringSets.map((set) => [set.id, set]));
  const setsOf = Map.groupBy(rows.stringSets, ({ instrumentId }) => instrumentId);
  const present = new Map(library?.stringSets.map((set) => [set.id, set]));
  return rows.instruments.map((instrument) => {
    const fitted = sets.get(instrument.stringSetId);
    if (fitted === undefined) throw new RangeError(`the strings ${instrument.stringSetId} of ${instrument.id} are not among the rows`);
    const isReplaceable = (setsOf.get(instrument.id) ?? []).every((set) => {
      const there = present.get(set.id);
      return there === undefined || (there.instrumentId === instrument.id && shape(there) === shape(set));
    });
    return { id: instrument.id, name: instrument.name, contents: [instrumentContent(instrument, fitted)], isReplaceable };
  });
}

const tuningsOf = ({ tunings }: Pick<LibraryRows, 'tunings'>): readonly Candidate[] =>
  tunings.map((tuning) => ({ id: tuning.id, name: tuning.name, contents: [tuningContent(tuning)], isReplaceable: true }));

/** A song of the file is the same whether it names rows by the ids of the file or by those that they have in the library. */
function songsOf({ songs }: Pick<LibraryRows, 'songs'>, found: ReadonlyMap<string, string> = new Map()): readonly Candidate[] {
  const known = (id: string | null): string | null => (id === null ? null : (found.get(id) ?? id));
  return songs.map((song) => {
    const translated = { ...song, tuningId: known(song.tuningId), instrumentId: known(song.instrumentId) };
    return { id: song.id, name: song.title, contents: [songContent(translated), songContent(song)], isReplaceable: true };
  });
}
