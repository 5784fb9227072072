import { writtenPitch } from '#shared/music/index.ts';
import type { Song } from '#shared/sets/index.ts';
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

/** Whether what was typed stands in a row: in its name, pitches, chord, tags, or a song that is played in it. */
export function matches({ tuning, here }: TuningRow, songs: readonly Song[], query: string): boolean {
  const wanted = plainText(query);
  const pitches = here?.to.pitches.flat() ?? tuning.courses.flatMap((course) => course.pitches);
  const titles = songs.filter(({ tuningId }) => tuningId === tuning.id).map(({ title }) => title);
  return [tuning.name, pitches.map(writtenPitch).join(' '), here?.chord ?? '', ...tuning.tags, ...titles].some((text) =>
    plainText(text).includes(wanted),
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
const byName = (a: TuningRow, b: TuningRow): number => a.tuning.name.localeCompare(b.tuning.name);
const byMoves = (a: TuningRow, b: TuningRow): number => {
  const [movesOfA, movesOfB] = [movesOf(a), movesOf(b)];
  return movesOfA === movesOfB ? semitonesOf(a) - semitonesOf(b) || byName(a, b) : movesOfA - movesOfB;
};

/** The rows to show: sifted, searched and in order. */
export const shownRows = (
  rows: readonly TuningRow[],
  songs: readonly Song[],
  { query, sift, order }: { readonly query: string; readonly sift: string; readonly order: Order },
): readonly TuningRow[] => rows.filter((row) => passes(row, sift) && matches(row, songs, query)).sort(order === 'name' ? byName : byMoves);
