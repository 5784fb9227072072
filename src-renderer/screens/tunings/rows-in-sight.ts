/** How the rows of a long list lie below one another, in px: all alike but one that is open. */
export type Lie = {
  readonly count: number;
  readonly rowHeight: number;
  readonly open: { readonly index: number; readonly height: number } | null;
};

/** Where a row begins; the end of the list for the row after the last. */
export const topOf = ({ rowHeight, open }: Lie, index: number): number =>
  index * rowHeight + (open !== null && index > open.index ? open.height - rowHeight : 0);

/** The row at a height, between the first and the last. */
function rowAt(lie: Lie, y: number): number {
  const { count, rowHeight, open } = lie;
  const isAtOpen = open !== null && y >= topOf(lie, open.index);
  const index = isAtOpen ? Math.max(open.index, Math.floor((y - open.height) / rowHeight) + 1) : Math.floor(y / rowHeight);
  return Math.min(Math.max(0, index), Math.max(0, count - 1));
}

/** What of a list is seen: from where, and how much, in px. */
export type View = { readonly top: number; readonly height: number };

/** Of many rows those worth drawing, in order: the ones in sight, `spare` more to each side, and those that are kept wherever they are. */
export function rowsInSight(lie: Lie, { top, height }: View, spare: number, kept: readonly number[]): readonly number[] {
  if (lie.count === 0) return [];
  const first = Math.max(0, rowAt(lie, top) - spare);
  const last = Math.min(lie.count - 1, rowAt(lie, top + height) + spare);
  const seen = Array.from({ length: last - first + 1 }, (_, at) => first + at);
  return [...new Set([...seen, ...kept.filter((index) => index >= 0 && index < lie.count)])].sort((a, b) => a - b);
}

/** From where a list has to be seen so that a row is in sight: as little as possible from where it is seen now. */
export function topToShow(lie: Lie, { top, height }: View, index: number): number {
  const [begin, end] = [topOf(lie, index), topOf(lie, index + 1)];
  return begin < top || end - begin > height ? begin : Math.max(top, end - height);
}

/** The row that a key goes to from another one; null for a key that goes nowhere. `page` is how many rows are in sight. */
export function rowByKey(key: string, from: number, { count, page }: { readonly count: number; readonly page: number }): number | null {
  const to = new Map([
    ['ArrowDown', from + 1],
    ['ArrowUp', from - 1],
    ['PageDown', from + page],
    ['PageUp', from - page],
    ['Home', 0],
    ['End', count - 1],
  ]).get(key);
  return to === undefined ? null : Math.min(count - 1, Math.max(0, to));
}
