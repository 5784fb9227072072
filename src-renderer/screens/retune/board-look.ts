/** How large a board is drawn: one quiet line, the one being worked on, or alone and readable from two metres. */
export type BoardLook = 'still' | 'active' | 'far';

/** A board wider than this has room for a larger bead, in px. */
const roomyBoard = 900;

/** Height of a bead that stands upright, in px; smaller where the strings of a course lie beside one another. */
export function beadHeight(look: BoardLook, strings: number, boardWidth: number): number {
  if (look === 'far') return strings > 1 ? 64 : 80;
  if (look === 'still') return strings > 1 ? 16 : 26;
  if (strings > 1) return 36;
  return boardWidth > roomyBoard ? 60 : 40;
}
