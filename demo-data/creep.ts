// How the strings of the demo move by themselves. Every figure is ASSUMED: invented for the demo, on the scale of trade experience.
//
// The law: a turn of the peg by m cents at minute t0 moves the string afterwards by
//
//     drift(t) = −rate · m/100 · log10(1 + (t − t0) / 1 minute)   cents
//
// so a raised string goes flat and a lowered one sharp. The turns of a string add up, each with its own age; a turn made within three days
// of the string's fitting counts four times. `rate` is in cents per tenfold of time for each semitone, one row an instrument,
// from the player's eye down:
export const creepRates = {
  wren: [1.4, 1.7, 1.5, 1.3],
  finch: [1.9, 1.6, 1.3, 1.5],
  moth: [1.7, 2.1, 2.4, 4.3],
  sedge: [2.2, 1.9, 2.7, 2.3],
  pip: [2.3, 2.8, 2.4, 2.6],
  rook: [1.6, 1.9, 2.2, 2.9, 2.4, 2.6],
} as const;

/** One turn of a peg: when, in minutes, and how far it took the string, in cents (positive = tightened). */
export type PegTurn = { readonly atMinutes: number; readonly cents: number };

const youngMinutes = 3 * 24 * 60;

/**
 * How far turns of the peg have let a string drift by a moment, in cents; turns after that moment do not count.
 * A semitone down (−100) at rate 2, ten minutes later → +2.08. `fittedAtMinutes` is when the string was new.
 */
export const driftCents = (
  turns: readonly PegTurn[],
  atMinutes: number,
  rate: number,
  fittedAtMinutes = Number.NEGATIVE_INFINITY,
): number =>
  turns.reduce((sum, turn) => {
    if (turn.atMinutes > atMinutes) return sum;
    const youth = turn.atMinutes - fittedAtMinutes < youngMinutes ? 4 : 1;
    return sum - rate * youth * (turn.cents / 100) * Math.log10(1 + atMinutes - turn.atMinutes);
  }, 0);
