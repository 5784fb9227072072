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

const plain = new Map<string, string>();
/** The same for what is said of many rows, a pitch, a tag or a chord: each is made plain once. */
function plainOnce(text: string): string {
  const known = plain.get(text);
  if (known !== undefined) return known;
  const made = plainText(text);
  plain.set(text, made);
  return made;
}

/** What a row can be found by besides its chord, in plain letters: name, pitches, tags, and the songs played in it. Put together when it is first asked for. */
export function searchTexts(songs: readonly Song[]): (row: TuningRow) => string {
  const titles = Map.groupBy(songs, ({ tuningId }) => tuningId);
  const texts = new WeakMap<TuningRow, string>();
  return (row) => {
    const known = texts.get(row);
    if (known !== undefined) return known;
    const { tuning, here } = row;
    const pitches = here?.to.pitches.flat() ?? tuning.courses.flatMap((course) => course.pitches);
    const songsIn = titles.get(tuning.id)?.map(({ title }) => title) ?? [];
    const text = [
      plainText(tuning.name),
      pitches.map((pitch) => plainOnce(pitchText(pitch))).join(' '),
      ...tuning.tags.map(plainOnce),
      ...songsIn.map(plainText),
    ].join('\n');
    texts.set(row, text);
    return text;
  };
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

/** What a row is sorted by, counted once a row. */
type Counted = { readonly row: TuningRow; readonly moves: number; readonly semitones: number };
const byMoves = (a: Counted, b: Counted): number =>
  a.moves === b.moves ? a.semitones - b.semitones || byName(a.row, b.row) : a.moves - b.moves;

/** The rows in order; `lastUsed` says when each tuning was last gone to, by its id, and those that never were come after. */
export function sortedRows(rows: readonly TuningRow[], order: Order, lastUsed: ReadonlyMap<string, number>): readonly TuningRow[] {
  if (order === 'name') return rows.toSorted(byName);
  const used = ({ row: { tuning } }: Counted): number => lastUsed.get(tuning.id) ?? 0;
  return rows
    .map((row): Counted => ({ row, moves: movesOf(row), semitones: semitonesOf(row) }))
    .sort(order === 'moves' ? byMoves : (a, b) => used(b) - used(a) || byMoves(a, b))
    .map(({ row }) => row);
}

/** What may stand in the name of a chord: `f#m7b5`, `c, no third`. */
const chordLetters = /^[a-jmnorstu\d#, ]+$/u;

/** Those of the rows that pass the sieve and have what was typed in their texts or their chord. */
export function foundRows(
  rows: readonly TuningRow[],
  textOf: (row: TuningRow) => string,
  { query, sift, repeated }: { readonly query: string; readonly sift: string; readonly repeated: ReadonlySet<string> },
): readonly TuningRow[] {
  const wanted = plainText(query);
  const isChord = chordLetters.test(wanted);
  const isFound = (row: TuningRow): boolean =>
    textOf(row).includes(wanted) || (isChord && plainOnce(row.here?.chord ?? '').includes(wanted));
  return rows.filter((row) => passes(row, sift, repeated) && (wanted === '' || isFound(row)));
}
