// Slips found and slips cried without one; a peg that keeps slipping.
import { assess, type Assessment, type StringLog } from '#shared/settling/index.ts';
import { seededRandom, type Event, type Random } from '#shared/simulation/strings/index.ts';
import { drawScenario, minute, type Kind, type Options, type Scenario } from './scenarios.ts';
import { print, share } from './table.ts';

const policy = { toleranceCents: 3, horizonSeconds: 30 * minute };
const readings = 12;

const judge = (log: StringLog, nowSeconds: number, others: readonly StringLog[] = []): Assessment =>
  assess({
    courses: [{ ...log, readings: log.readings.filter(({ atSeconds }) => atSeconds <= nowSeconds) }, ...others],
    nowSeconds,
    policy,
  })[0]!;

/** Whether a slip of a size, after the third reading or later, is found by the second reading after it. */
function found(random: Random, cents: number, sigmaCents: number, badShare: number, kind: Kind): boolean {
  const at = { seconds: 0 };
  const events = (tuned: readonly number[]): readonly Event[] => {
    at.seconds = (tuned.at(-1) ?? 0) + random.between(80, 200);
    return [{ kind: 'slip', atSeconds: at.seconds, cents }];
  };
  const { log } = drawScenario(random, kind, undefined, { readings, events, noise: { sigmaCents, badShare, trueOverClaimed: 1 } });
  const second = log.readings.filter(({ atSeconds }) => atSeconds >= at.seconds)[1];
  if (second === undefined) throw new RangeError('the slip must leave two readings after it');
  return judge(log, second.atSeconds).slips.some(({ atSeconds }) => atSeconds >= at.seconds);
}

/** Whether a session in which nothing slips is called slipping after any of its readings. */
const criedWolf = ({ log }: Scenario, others: readonly StringLog[] = []): boolean =>
  log.readings.some(({ atSeconds }) => judge(log, atSeconds, others).slips.length > 0);

const rate = (seed: number, count: number, once: (random: Random) => boolean): string => {
  const random = seededRandom(seed);
  return share(Array.from({ length: count }, () => once(random)));
};

const side = (random: Random) => (random.chance(0.85) ? -1 : 1);

/** Prints the tables of slips. */
export function slips(seed: number, count: number): void {
  print(
    `A slip found within two readings (${count} sessions a figure)`,
    ['', 'clean', '5 % bad readings'],
    [
      ...[0.3, 0.6, 1].map((sigma) => [
        `8 c, sigma ${sigma}`,
        ...[0, 0.05].map((bad) => rate(seed, count, (random) => found(random, 8 * side(random), sigma, bad, 'plain'))),
      ]),
      [
        '8 c, sigma 0.6, new string',
        ...[0, 0.05].map((bad) => rate(seed, count, (random) => found(random, 8 * side(random), 0.6, bad, 'new string'))),
      ],
      ['5 c, sigma 0.3', ...[0, 0.05].map((bad) => rate(seed, count, (random) => found(random, 5 * side(random), 0.3, bad, 'plain')))],
    ],
  );
  const quiet = (kind: Kind, noise: Options['noise']) => (random: Random) =>
    criedWolf(drawScenario(random, kind, undefined, { readings, noise: noise ?? {} }));
  const rows: readonly (readonly [string, (bad: number) => (random: Random) => boolean])[] = [
    ['sigma 0.5', (badShare) => quiet('plain', { sigmaCents: 0.5, badShare })],
    ['sigma 1', (badShare) => quiet('plain', { sigmaCents: 1, badShare })],
    ['new strings', (badShare) => quiet('new string', { badShare })],
    ['out and back', (badShare) => quiet('out and back', { badShare })],
    ['bends', (badShare) => quiet('bend', { badShare })],
    ['warming', (badShare) => quiet('warming', { badShare })],
    ['sigma 2', (badShare) => quiet('plain', { sigmaCents: 2, badShare })],
    ['sigma claims half the truth', (badShare) => quiet('plain', { trueOverClaimed: 2, badShare })],
    ['another peg turned', (badShare) => (random) => anotherPeg(random, badShare)],
  ];
  print(
    `False alarms: sessions of ${readings} readings called slipping after any of them`,
    ['', 'clean', '5 % bad readings'],
    rows.map(([name, once]) => [name, ...[0, 0.05].map((bad) => rate(seed + 5, count, once(bad)))]),
  );
}

/** A session in which one or two other pegs are turned by up to four semitones between the readings. */
function anotherPeg(random: Random, badShare: number): boolean {
  const others: StringLog[] = [];
  const events = (tuned: readonly number[]): readonly Event[] =>
    Array.from({ length: random.pick([1, 2]) }, () => {
      const atSeconds = (tuned.at(-1) ?? 0) + random.between(30, 500);
      const cents = random.pick([-1, 1]) * random.between(50, 400);
      const string = { material: 'nylon', wound: false, daysSinceChange: 50 } as const;
      others.push({ string, moves: [{ atSeconds, cents }], readings: [], past: [] });
      return { kind: 'coupling', atSeconds, cents: -cents * random.between(0.005, 0.05) };
    });
  return criedWolf(drawScenario(random, 'plain', undefined, { readings, events, noise: { badShare } }), others);
}

const slip = (random: Random, tuned: number): Event => ({
  kind: 'slip',
  atSeconds: tuned + random.between(60, 240),
  cents: -random.between(6, 15),
});

/** Prints how often a string is said to keep slipping that does, and that does not. */
export function keepsSlipping(seed: number, count: number): void {
  const retunesBefore = 2;
  const judged = (random: Random, events: (tuned: readonly number[]) => readonly Event[]): boolean => {
    const { log, nowSeconds } = drawScenario(random, 'plain', undefined, { readings: 10, retunesBefore, events });
    return judge(log, nowSeconds).keepsSlipping;
  };
  const loose = (random: Random) => judged(random, (tuned) => tuned.map((at) => slip(random, at)));
  const slide = (random: Random) =>
    judged(random, (tuned) => {
      const fromSeconds = tuned.at(-1) ?? 0;
      return [{ kind: 'slide', fromSeconds, untilSeconds: fromSeconds + 3 * 3600, centsPerHour: -random.between(40, 150) }];
    });
  const once = (random: Random) => judged(random, (tuned) => [slip(random, random.pick(tuned))]);
  print(
    `"Keeps slipping" (${count} sessions a figure, two earlier retunes known)`,
    ['loose peg', 'slide', 'slipped once', 'fine'],
    [[loose, slide, once, (random: Random) => judged(random, () => [])].map((one, index) => rate(seed + index, count, one))],
  );
}
