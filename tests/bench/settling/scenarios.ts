// Sessions for the bench: one string, a retune, ten minutes of readings, and where the string truly goes afterwards.
// All magnitudes are assumed; the estimator knows none of them.
import type { Move, RetuneLog, StringFacts, StringLog } from '#shared/settling/index.ts';
import {
  drawMoments,
  drawString,
  logOf,
  readVisit,
  trueCents,
  type Event,
  type LawKind,
  type Life,
  type Random,
  type ReadingNoise,
  type Visit,
} from '#shared/simulation/strings/index.ts';

export const day = 86_400;
export const minute = 60;
export const readFor = 10 * minute;

export type Kind = 'plain' | 'out and back' | 'new string' | 'warming' | 'bend' | 'sigma wrong';
export const kinds: readonly Kind[] = ['plain', 'out and back', 'new string', 'warming', 'bend', 'sigma wrong'];
/** How often each kind is met, out of 20. */
export const mix: readonly Kind[] = kinds.flatMap((kind) =>
  Array.from<Kind>({ length: { plain: 7, 'out and back': 4, 'new string': 3, warming: 2, bend: 2, 'sigma wrong': 2 }[kind] }).fill(kind),
);

export interface Scenario {
  readonly kind: Kind;
  readonly log: StringLog;
  readonly nowSeconds: number;
  readonly tunedAtSeconds: number;
  readonly truth: (atSeconds: number) => number;
}

export interface Options {
  /** Earlier retunes of the same string that were read. */
  readonly retunesBefore?: number;
  readonly readings?: number;
  /** How much farther around than usual the string's law and rate are drawn; 1 = as usual. */
  readonly spread?: number;
  readonly noise?: Partial<ReadingNoise>;
  /** What befalls the string, given when each of its retunes ended (oldest first). */
  readonly events?: (tunedAtSeconds: readonly number[]) => readonly Event[];
}

const facts = (random: Random): Omit<StringFacts, 'daysSinceChange'> =>
  random.pick([
    { material: 'nylon', wound: false },
    { material: 'nylon', wound: false },
    { material: 'synthetic-gut', wound: false },
    { material: 'fluorocarbon', wound: false },
    { material: 'nylon', wound: true },
  ] as const);

/** One turn of the peg, or a turn and one or two corrections within the minute before `atSeconds`. */
function drawTurns(random: Random, atSeconds: number, cents: number): readonly Move[] {
  const corrections = random.pick([0, 1, 2]);
  const parts = Array.from({ length: corrections }, () => random.normal(15));
  const first = cents - parts.reduce((sum, part) => sum + part, 0);
  return [first, ...parts].map((part, index) => ({ atSeconds: atSeconds - (corrections - index) * random.between(5, 15), cents: part }));
}

const drawNoise = (random: Random, kind: Kind): ReadingNoise => ({
  sigmaCents: random.betweenLog(0.3, 1.2),
  trueOverClaimed: kind === 'sigma wrong' ? random.pick([0.5, 2]) : 1,
  badShare: random.pick([0, 0.05]),
});

/** What befalls a string in a session of a kind. */
export function drawEvents(random: Random, kind: Kind, tuned: number): readonly Event[] {
  if (kind === 'warming')
    return [{ kind: 'ramp', fromSeconds: tuned - 600, untilSeconds: tuned + random.between(30, 120) * minute, cents: random.normal(5) }];
  if (kind === 'bend')
    return [
      {
        kind: 'bend',
        atSeconds: tuned + random.between(60, 500),
        cents: -random.between(1, 4),
        backShare: random.between(0.4, 0.9),
        backSeconds: random.between(60, 600),
      },
    ];
  return [];
}

/** One session of a kind under a law. */
export function drawScenario(random: Random, kind: Kind, law: LawKind | undefined, options: Options = {}): Scenario {
  const epoch = random.between(0, 2e9);
  const young = kind === 'new string';
  const tuned = epoch + 60 * day;
  const before = options.retunesBefore ?? 0;
  // retunes alternate: out, home, out …; the last one goes by `wanted`
  const earlier = kind === 'out and back' ? Math.max(1, before) : before;
  const youngAge = random.between(0.1, 2.8) * day;
  const gap = young ? Math.min(random.between(0.05, 0.2) * day, (0.9 * youngAge) / Math.max(1, earlier)) : random.between(0.5, 6) * day;
  const lastGap = kind === 'out and back' ? random.betweenLog(20, 240) * minute : gap;
  // its past is its own: the string is older than its first retune
  const strungAtSeconds = young ? tuned - youngAge : null;
  const daysSinceChange = young ? 0 : random.between(10, 200) + (earlier * gap) / day;
  const string = drawString(random, { ...facts(random), daysSinceChange }, law, options.spread);

  const noise = { ...drawNoise(random, kind), ...options.noise };
  const wanted = random.pick([-1, 1]) * random.pick([100, 100, 200, 200, 200, 300, 400]);
  const times = Array.from({ length: earlier + 1 }, (_, index) =>
    index === earlier ? tuned : tuned - lastGap - (earlier - 1 - index) * gap,
  );
  const retunes = times.map((at, index) => drawTurns(random, at, (earlier - index) % 2 === 0 ? wanted : -wanted));
  const unseen: readonly Move[] = young ? [] : [{ atSeconds: tuned - random.between(8, 30) * day - earlier * gap, cents: -wanted }];
  const events = [...drawEvents(random, kind, tuned), ...(options.events?.(times) ?? [])];
  const life: Life = { string, strungAtSeconds, moves: [...unseen, ...retunes.flat()], events };

  const visits = retunes.map((moves): Visit => {
    const at = moves.at(-1)?.atSeconds ?? tuned;
    const count = options.readings ?? random.pick([5, 6, 7, 8, 10, 12]);
    const readAtSeconds = drawMoments(random, count, random.between(8, 40), readFor).map((seconds) => at + seconds);
    return { moves, startCents: random.normal(1.5), readAtSeconds, noise };
  });
  const logs = visits.map((visit, index): RetuneLog => {
    const unread = before === 0 && index < visits.length - 1;
    return unread ? { moves: visit.moves, readings: [] } : readVisit(random, life, visit);
  });
  const nowSeconds = tuned + readFor;
  const visit = visits.at(-1) as Visit;
  return { kind, log: logOf(life, logs, nowSeconds), nowSeconds, tunedAtSeconds: tuned, truth: (at) => trueCents(life, visit, at) };
}
