// How near anyone could come: a forecaster that sees what the room sees, but knows how strings, mishaps and noise are drawn here.
// Importance sampling: many strings are drawn as scenarios.ts draws them, each weighted by how well it explains the readings.
import { median } from 'simple-statistics';
import { assess } from '#shared/settling/index.ts';
import { creepCents, drawString, eventCents, lawKinds, seededRandom, type Random } from '#shared/simulation/strings/index.ts';
import { day, drawEvents, drawScenario, minute, mix, type Kind, type Scenario } from './scenarios.ts';
import { print, sizes } from './table.ts';

const draws = 3000;
const startSigmaCents = 1.5;
const badSpanCents = 68;
const policy = { toleranceCents: 3, horizonSeconds: 30 * minute };
const gridCents = Array.from({ length: 15 }, (_, index) => (index - 7) / 10);

interface Draw {
  readonly log: number;
  readonly cents: number;
}

/** One string as it might be, and what it would do by `atSeconds`. */
function drawOne(
  random: Random,
  { log, tunedAtSeconds: tuned, nowSeconds, kind }: Scenario,
  atSeconds: number,
  kinds: readonly Kind[],
): Draw {
  const { moves, readings, past, string: facts } = log;
  const drawnKind = kind === 'new string' || kind === 'out and back' ? kind : random.pick(kinds);
  const strung = kind === 'new string' ? nowSeconds - (facts.daysSinceChange ?? 0) * day : null;
  const string = drawString(random, facts, random.pick(lawKinds));
  const events = drawEvents(random, drawnKind, tuned);
  const trueOverClaimed = drawnKind === 'sigma wrong' ? random.pick([0.5, 2]) : 1;
  const badShare = random.pick([0.001, 0.05]);
  const all = [...past.flatMap((retune) => retune.moves), ...moves];
  const carried = (at: number) => creepCents(string, all, at, strung) + events.reduce((sum, event) => sum + eventCents(event, at), 0);
  const left = readings.map((reading) => ({ ...reading, cents: reading.cents - carried(reading.atSeconds) + carried(tuned) }));
  const centre = median(left.map(({ cents }) => cents));
  // where the retune ended is summed over a grid around the median
  const starts = gridCents.map((step) => {
    const start = centre + step;
    const fit = left.reduce(
      (sum, { cents, sigmaCents }) => {
        const sigma = sigmaCents * trueOverClaimed;
        const good = Math.exp(-0.5 * ((cents - start) / sigma) ** 2) / (sigma * Math.sqrt(2 * Math.PI));
        return sum + Math.log((1 - badShare) * good + badShare / badSpanCents);
      },
      -0.5 * (start / startSigmaCents) ** 2,
    );
    return { start, weight: Math.exp(fit), fit };
  });
  const total = starts.reduce((sum, { weight }) => sum + weight, 0);
  const start = starts.reduce((sum, one) => sum + (one.weight / total) * one.start, 0);
  return total > 0 ? { log: Math.log(total), cents: start + carried(atSeconds) - carried(tuned) } : { log: -Infinity, cents: 0 };
}

/** Its forecast, and how many of the draws it effectively rests on. */
function reachable(random: Random, scenario: Scenario, atSeconds: number, kinds: readonly Kind[]) {
  const drawn = Array.from({ length: draws }, () => drawOne(random, scenario, atSeconds, kinds));
  const most = Math.max(...drawn.map(({ log }) => log));
  const weights = drawn.map(({ log }) => Math.exp(log - most));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const squares = weights.reduce((sum, weight) => sum + weight ** 2, 0);
  return { cents: drawn.reduce((sum, { cents }, at) => sum + ((weights[at] ?? 0) / total) * cents, 0), effective: total ** 2 / squares };
}

/** Prints ours beside what is reachable, 30 minutes ahead, for strings never seen before. */
export function reach(seed: number, count: number): void {
  const rested = mix.filter((kind) => kind !== 'new string' && kind !== 'out and back');
  const tests = [
    ['never seen before, ten minutes of readings', mix, rested, Infinity],
    ['the first two readings, plain sessions', ['plain'], ['plain'], 2],
  ] as const;
  const rows = tests.map(([name, drawnFrom, kinds, most], index) => {
    const random = seededRandom(seed + index);
    const pairs = Array.from({ length: count }, () => {
      const drawn = drawScenario(random, random.pick<Kind>(drawnFrom), undefined);
      const readings = drawn.log.readings.slice(0, most);
      const nowSeconds = Number.isFinite(most) ? (readings.at(-1)?.atSeconds ?? drawn.nowSeconds) : drawn.nowSeconds;
      const scenario = { ...drawn, nowSeconds, log: { ...drawn.log, readings } };
      const at = nowSeconds + 30 * minute;
      const { cents, effective } = reachable(random, scenario, at, kinds);
      const ours = assess({ courses: [scenario.log], nowSeconds, policy })[0]!.forecast(at).cents;
      return { ours: ours - drawn.truth(at), reachable: cents - drawn.truth(at), effective };
    });
    return [
      name,
      sizes(pairs.map(({ ours }) => ours)),
      sizes(pairs.map((pair) => pair.reachable)),
      median(pairs.map(({ effective }) => effective)).toFixed(0),
    ];
  });
  print(
    `What could be reached by one who knows how these strings are drawn, 30 min ahead (${count} sessions a row, ${draws} draws each)`,
    ['', 'ours', 'reachable', 'draws it rests on, median'],
    rows,
  );
}
