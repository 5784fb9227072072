import { median } from 'simple-statistics';
import type { Reading } from './types.ts';

// A long log is thinned before it is fitted: the newest readings stay as they are, older ones become one median per log-spaced stretch.

/** How much a thinned log keeps: the newest readings one by one, and at most about so many medians of older ones. */
export interface Thinning {
  readonly newest: number;
  readonly groups: number;
}

const mostPerMedian = 301;
const smallestSigmaCents = 0.1;

/** The median of a run of readings (of at most 301, evenly taken), with the standard deviation of a median: π/2 · σ²/n. */
function middle(run: readonly Reading[]): Reading {
  const every = Math.ceil(run.length / mostPerMedian);
  const taken = every === 1 ? run : run.filter((_, index) => index % every === 0);
  const centre = taken[Math.floor(taken.length / 2)] as Reading;
  if (taken.length < 3) return centre;
  const sigma = median(taken.map(({ sigmaCents }) => sigmaCents)) * Math.sqrt(Math.PI / 2 / taken.length);
  return { atSeconds: centre.atSeconds, cents: median(taken.map(({ cents }) => cents)), sigmaCents: Math.max(smallestSigmaCents, sigma) };
}

/**
 * At most `newest + groups` readings (one more for each break) that tell what all of them told; no median spans one of the `breaks`
 * (turns of pegs, oldest first). The runs are even in log time since the first break, as creep is.
 */
export function thin(readings: readonly Reading[], breaks: readonly number[], { newest, groups }: Thinning): readonly Reading[] {
  const old = readings.slice(0, -newest);
  const first = old[0];
  const last = old.at(-1);
  if (readings.length <= newest + groups || first === undefined || last === undefined) return readings;
  const from = breaks.findLast((at) => at <= first.atSeconds) ?? first.atSeconds - 60;
  const logSpan = Math.log1p((last.atSeconds - from) / 60);
  const even = Array.from({ length: groups }, (_, index) => from + 60 * Math.expm1((logSpan * (index + 1)) / groups));
  const ends = [...even, ...breaks.filter((at) => at > first.atSeconds)].sort((a, b) => a - b);
  const runs: Reading[][] = [];
  let begin = 0;
  for (const end of [...ends, Number.POSITIVE_INFINITY]) {
    let next = begin;
    while (next < old.length && (old[next] as Reading).atSeconds < end) next += 1;
    if (next > begin) runs.push(old.slice(begin, next));
    begin = next;
  }
  return [...runs.map(middle), ...readings.slice(-newest)];
}
