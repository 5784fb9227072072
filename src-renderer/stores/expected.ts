import { type CoachState, driftBetween, type StringState } from '#shared/guidance/index.ts';
import { centsBetween, hertz } from '#shared/units/index.ts';

/** What a string that has landed is expected to do by itself. */
export type Expected = {
  readonly course: number;
  readonly string: number;
  /** When it reaches the wanted pitch, in seconds of the epoch; null where it is there already or does not within the time looked at. */
  readonly reachesAtSeconds: number | null;
  /** The courses whose turns still to come take it onto the wanted pitch; empty where it is time that does. */
  readonly by: readonly number[];
  /** Where it is at the end of the time looked at, in cents from wanted. */
  readonly untilSeconds: number;
  readonly endCents: number;
};

/** Smaller changes are not worth a mark or a word, in cents. */
export const leastCents = 0.75;
const least = leastCents;

/** What every landed string is expected to do until a moment; a string that will hardly move is not there. */
export function expectations(coach: CoachState, untilSeconds: number): readonly Expected[] {
  return coach.strings.flatMap((one, place) => {
    const off = centsBetween(hertz(one.presentHertz), hertz(one.aimHertz));
    // A string that was drawn off comes again: what it does by itself is of no use.
    const isOff = Math.abs(off) > coach.setup.toleranceCents;
    if (one.landedAtSeconds === null || isOff || coach.queue[0] === place) return [];
    const expected = expectedOf(one, coach.nowSeconds, untilSeconds);
    return expected === null ? [] : [expected];
  });
}

function expectedOf(one: StringState, nowSeconds: number, untilSeconds: number): Expected | null {
  const { course, string, pulls, wantedHertz, presentHertz } = one;
  const pulled = pulls.reduce((sum, { cents }) => sum + cents, 0);
  const present = centsBetween(hertz(presentHertz), hertz(wantedHertz));
  const crept = (atSeconds: number): number => driftBetween(one.drift, one.moves, nowSeconds, atSeconds).cents;
  const end = Math.max(untilSeconds, nowSeconds);
  const endCents = present + pulled + crept(end);
  const base = { course, string, untilSeconds: end, endCents, reachesAtSeconds: null, by: [] };
  if (Math.abs(endCents - present) < least) return null;
  if (Math.abs(present) < least) return base;
  if (Math.abs(crept(end)) < least) return Math.abs(endCents) < least ? { ...base, by: pulls.map((pull) => pull.course) } : base;
  return { ...base, reachesAtSeconds: crossing((atSeconds) => present + pulled + crept(atSeconds), nowSeconds, end) };
}

/** When the distance from wanted changes its side, within a second; null where it does not. A distance that ends within half a cent counts as reached. */
function crossing(distance: (atSeconds: number) => number, fromSeconds: number, untilSeconds: number): number | null {
  const side = Math.sign(distance(fromSeconds));
  if (Math.sign(distance(untilSeconds)) === side) return Math.abs(distance(untilSeconds)) <= 0.5 ? untilSeconds : null;
  let [low, high] = [fromSeconds, untilSeconds];
  while (high - low > 1) {
    const middle = (low + high) / 2;
    if (Math.sign(distance(middle)) === side) low = middle;
    else high = middle;
  }
  return high;
}
