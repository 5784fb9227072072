/** Something on a board that a cursor can stand on: where it is (shares of the board, from its nut and from its top) and what it says. */
export type CursorPoint = { readonly along: number; readonly down: number; readonly words: string };

/** The place of the point nearest to a share along the board; null where there are none. */
export function nearestTo(points: readonly CursorPoint[], along: number): number | null {
  let nearest: number | null = null;
  for (const [index, point] of points.entries()) {
    const before = nearest === null ? undefined : points[nearest];
    if (before === undefined || Math.abs(point.along - along) < Math.abs(before.along - along)) nearest = index;
  }
  return nearest;
}
