import type { Song } from '#shared/sets/index.ts';
import { canTake } from '../judged.ts';
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
/** What the instrument in hand can take. */
export const takeable = 'takeable';
/** Tunings that stand in the library more than once. */
export const twice = 'twice';

/** What the sieve knows besides the rows: the name of the instrument in hand, and the ids of the tunings that stand in the library more than once. */
export type SiftGround = { readonly instrument: string; readonly repeated: ReadonlySet<string> };

/** What can be sifted by: everything, favourites, what the instrument can take, the tags that are used most, and what stands here twice. */
export function siftOptions(
  rows: readonly TuningRow[],
  { instrument, repeated }: SiftGround,
  most = 4,
): readonly { readonly value: string; readonly words: string }[] {
  const uses = new Map<string, number>();
  for (const { tuning } of rows) for (const tag of tuning.tags) uses.set(tag, (uses.get(tag) ?? 0) + 1);
  const tags = [...uses].sort(([a, usesOfA], [b, usesOfB]) => usesOfB - usesOfA || a.localeCompare(b)).slice(0, most);
  return [
    { value: everything, words: `All ${rows.length}` },
    ...(rows.some(({ tuning }) => tuning.favourite) ? [{ value: favourites, words: 'Favourites' }] : []),
    ...(rows.length === 0 ? [] : [{ value: takeable, words: `${instrument} can take` }]),
    ...tags.map(([tag]) => ({ value: `tag ${tag}`, words: tag.charAt(0).toUpperCase() + tag.slice(1) })),
    ...(repeated.size === 0 ? [] : [{ value: twice, words: 'Here twice' }]),
  ];
}

function passes({ tuning, here }: TuningRow, sift: string, repeated: ReadonlySet<string>): boolean {
  if (sift === everything) return true;
  if (sift === favourites) return tuning.favourite;
  if (sift === takeable) return here !== null && canTake(here.judged);
  if (sift === twice) return repeated.has(tuning.id);
  return tuning.tags.some((tag) => `tag ${tag}` === sift);
}

export type Order = 'moves' | 'used' | 'name';

const semitonesOf = ({ here }: TuningRow): number => here?.moves.reduce((sum, { semitones }) => sum + Math.abs(semitones), 0) ?? 0;
/** Tunings that the instrument cannot take come last. */
const movesOf = ({ here }: TuningRow): number => (here === null ? Number.POSITIVE_INFINITY : moveCount(here.moves));
const inAlphabet = new Intl.Collator('en').compare;
const byName = (a: TuningRow, b: TuningRow): number => inAlphabet(a.tuning.name, b.tuning.name);
const byMoves = (a: TuningRow, b: TuningRow): number => {
  const [movesOfA, movesOfB] = [movesOf(a), movesOf(b)];
  return movesOfA === movesOfB ? semitonesOf(a) - semitonesOf(b) || byName(a, b) : movesOfA - movesOfB;
};

/** The rows in order; `lastUsed` says when each tuning was last gone to, by its id, and those that never were come after. */
export function sortedRows(rows: readonly TuningRow[], order: Order, lastUsed: ReadonlyMap<string, number>): readonly TuningRow[] {
  if (order === 'name') return rows.toSorted(byName);
  const used = ({ tuning }: TuningRow): number => lastUsed.get(tuning.id) ?? 0;
  return order === 'moves' ? rows.toSorted(byMoves) : rows.toSorted((a, b) => used(b) - used(a) || byMoves(a, b));
}

/** What may stand in the name of a chord: `f#m7b5`, `c, no third`. */
const chordLetters = /^[a-jmnorstu\d#, ]+$/u;

/** Those of the rows that pass the sieve and have what was typed in their texts or their chord. */
export function foundRows(
  rows: readonly TuningRow[],
  texts: ReadonlyMap<string, string>,
  { query, sift, repeated }: { readonly query: string; readonly sift: string; readonly repeated: ReadonlySet<string> },
): readonly TuningRow[] {
  const wanted = plainText(query);
  const isFound = ({ tuning, here }: TuningRow): boolean =>
    texts.get(tuning.id)?.includes(wanted) === true || (chordLetters.test(wanted) && plainText(here?.chord ?? '').includes(wanted));
  return rows.filter((row) => passes(row, sift, repeated) && (wanted === '' || isFound(row)));
}
