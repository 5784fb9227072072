// When a string is said to hold, against when it truly does; and how long a verdict takes.
import { median } from 'simple-statistics';
import { assess } from '#shared/settling/index.ts';
import { seededRandom } from '#shared/simulation/strings/index.ts';
import { drawScenario, minute, mix, readFor } from './scenarios.ts';
import { print, share } from './table.ts';

const policy = { toleranceCents: 3, horizonSeconds: 30 * minute };
const longestSeconds = 12 * 3600;

/** The first moment from which the true pitch moves no more than the tolerance in one horizon, on a grid even in log time since the move. */
function trulyHoldsFrom(truth: (atSeconds: number) => number, tuned: number): number {
  let since = 30;
  while (since < longestSeconds && Math.abs(truth(tuned + since + policy.horizonSeconds) - truth(tuned + since)) > policy.toleranceCents)
    since *= 1.02;
  return since;
}

/** Prints how near "holds from" comes, counted in time since the retune, for strings that do not hold yet at ten minutes. */
export function holds(seed: number, count: number): void {
  const rows = [0, 4].map((retunesBefore) => {
    const random = seededRandom(seed);
    const ratios: number[] = [];
    for (let tries = 0; ratios.length < count && tries < 20 * count; tries += 1) {
      const { log, nowSeconds, tunedAtSeconds, truth } = drawScenario(random, random.pick(mix), undefined, { retunesBefore });
      const truly = trulyHoldsFrom(truth, tunedAtSeconds);
      if (truly <= readFor || truly >= longestSeconds) continue;
      const ours = assess({ courses: [log], nowSeconds, policy })[0]!.holdsFromSeconds;
      ratios.push(ours === null ? Number.POSITIVE_INFINITY : (ours - tunedAtSeconds) / truly);
    }
    return [
      retunesBefore === 0 ? 'never seen before' : 'past known',
      share(ratios.map((ratio) => ratio >= 0.5 && ratio <= 2)),
      share(ratios.map((ratio) => ratio < 0.5)),
      share(ratios.map((ratio) => ratio < 1)),
    ];
  });
  print(
    `"Holds from" for strings that still move at ten minutes (${count} a row)`,
    ['', 'within a factor of two', 'too soon by more', 'too soon at all'],
    rows,
  );
}

const middle = (of: readonly number[]) => `${median(of).toFixed(1)} ms`;

/** Prints how long a verdict takes, alone and from a hundred thousand readings. */
export function speed(seed: number): void {
  const { log, nowSeconds, tunedAtSeconds } = drawScenario(seededRandom(seed), 'plain', 'logarithm', { retunesBefore: 8, readings: 12 });
  const random = seededRandom(seed);
  const many = Array.from({ length: 100_000 }, (_, index) => ({
    atSeconds: tunedAtSeconds + index,
    cents: -6 * Math.log10(1 + index / 60) + random.normal(0.7),
    sigmaCents: 0.7,
  }));
  const one = { ...log, past: [] };
  const split = Array.from({ length: 8 }, (_, at) => ({ ...one, readings: many.filter((_, index) => index % 8 === at) }));
  const cases = [
    ['one string, 12 readings, no past', [one], nowSeconds],
    ['one string, 12 readings, eight retunes before', [log], nowSeconds],
    ['one string, 100 000 readings', [{ ...one, readings: many }], tunedAtSeconds + 100_000],
    ['eight strings, 100 000 readings in all', split, tunedAtSeconds + 100_000],
  ] as const;
  const rows = cases.map(([name, courses, now]) => {
    const times = Array.from({ length: 9 }, () => {
      const [start, used] = [performance.now(), process.cpuUsage()];
      assess({ courses, nowSeconds: now, policy });
      return { wall: performance.now() - start, processor: process.cpuUsage(used).user / 1000 };
    });
    const later = times.slice(1);
    return [
      name,
      `${times[0]!.wall.toFixed(0)} ms`,
      middle(later.map(({ wall }) => wall)),
      middle(later.map(({ processor }) => processor)),
    ];
  });
  print('Time for a verdict', ['', 'first call', 'median of eight', 'its processor time'], rows);
}
