import type { Song } from '#shared/sets/index.ts';
import { pitchText } from '../../ui/words.ts';
import { moveCount, type TuningRow } from './tuning-rows.ts';

/** Plain letters for comparing: lower case, `♭` and “flat” as `b`, `♯` and “sharp” as `#`. */
export const plainText = (text: string): string =>
  text
    .toLowerCase()
    .replaceAll('♭', 'b')
    .replaceAll('♯', '#')
    .replaceAll('’', "'")
    .replace(/\b([a-g]) ?flat(?=\b|\d)/gu, '$1b')
    .replace(/\b([a-g]) ?sharp(?=\b|\d)/gu, '$1#')
    .trim();

/** What each row can be found by besides its chord, in plain letters, by the id of its tuning: name, pitches, tags, and the songs played in it. */
export function searchTexts(rows: readonly TuningRow[], songs: readonly Song[]): ReadonlyMap<string, string> {
  const titles = Map.groupBy(songs, ({ tuningId }) => tuningId);
  return new Map(
    rows.map(({ tuning, here }) => {
      const pitches = here?.to.pitches.flat() ?? tuning.courses.flatMap((course) => course.pitches);
      const songsIn = titles.get(tuning.id)?.map(({ title }) => title) ?? [];
      const texts = [tuning.name, pitches.map(pitchText).join(' '), ...tuning.tags, ...songsIn];
      return [tuning.id, texts.map(plainText).join('\n')];
    }),
  );
}

export const everything = 'all';
export const favourites = 'favourites';

/** What can be sifted by: everything, favourites, and the tags that are used most. */
export function siftOptions(rows: readonly TuningRow[], most = 5): readonly { readonly value: string; readonly words: string }[] {
  const uses = new Map<string, number>();
  for (const { tuning } of rows) for (const tag of tuning.tags) uses.set(tag, (uses.get(tag) ?? 0) + 1);
  const tags = [...uses].sort(([a, usesOfA], [b, usesOfB]) => usesOfB - usesOfA || a.localeCompare(b)).slice(0, most);
  return [
    { value: everything, words: `All ${rows.length}` },
    ...(rows.some(({ tuning }) => tuning.favourite) ? [{ value: favourites, words: 'Favourites' }] : []),
    ...tags.map(([tag]) => ({ value: `tag ${tag}`, words: tag.charAt(0).toUpperCase() + tag.slice(1) })),
  ];
}

const passes = ({ tuning }: TuningRow, sift: string): boolean =>
  sift === everything || (sift === favourites ? tuning.favourite : tuning.tags.some((tag) => `tag ${tag}` === sift));

export type Order = 'moves' | 'name';

const semitonesOf = ({ here }: TuningRow): number => here?.moves.reduce((sum, { semitones }) => sum + Math.abs(semitones), 0) ?? 0;
/** Tunings that the instrument cannot take come last. */
const movesOf = ({ here }: TuningRow): number => (here === null ? Number.POSITIVE_INFINITY : moveCount(here.moves));
const inAlphabet = new Intl.Collator('en').compare;
const byName = (a: TuningRow, b: TuningRow): number => inAlphabet(a.tuning.name, b.tuning.name);
const byMoves = (a: TuningRow, b: TuningRow): number => {
  const [movesOfA, movesOfB] = [movesOf(a), movesOf(b)];
  return movesOfA === movesOfB ? semitonesOf(a) - semitonesOf(b) || byName(a, b) : movesOfA - movesOfB;
};

/** The rows in order. */
export const sortedRows = (rows: readonly TuningRow[], order: Order): readonly TuningRow[] =>
  order === 'name' ? rows.toSorted(byName) : rows.toSorted(byMoves);

/** What may stand in the name of a chord: `f#m7b5`, `c, no third`. */
const chordLetters = /^[a-jmnorstu\d#, ]+$/u;

/** Those of the rows that pass the sieve and have what was typed in their texts or their chord. */
export function foundRows(
  rows: readonly TuningRow[],
  texts: ReadonlyMap<string, string>,
  { query, sift }: { readonly query: string; readonly sift: string },
): readonly TuningRow[] {
  const wanted = plainText(query);
  const isFound = ({ tuning, here }: TuningRow): boolean =>
    texts.get(tuning.id)?.includes(wanted) === true || (chordLetters.test(wanted) && plainText(here?.chord ?? '').includes(wanted));
  return rows.filter((row) => passes(row, sift) && (wanted === '' || isFound(row)));
}
