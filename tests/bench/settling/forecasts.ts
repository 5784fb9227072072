// How far forecasts err, and how often the 90 % band holds the truth: kind of session × law, with two baselines.
import { assess, theilSen, type StringLog } from '#shared/settling/index.ts';
import { lawKinds, seededRandom, type LawKind } from '#shared/simulation/strings/index.ts';
import { drawScenario, kinds, minute, mix, type Kind, type Scenario } from './scenarios.ts';
import { print, share, sizes } from './table.ts';

const policy = { toleranceCents: 3, horizonSeconds: 30 * minute };

interface Outcome {
  readonly kind: Kind;
  readonly law: LawKind;
  readonly error: number;
  readonly error2h: number;
  readonly covered: boolean;
  readonly width: number;
  readonly lastValue: number;
  readonly lastValue2h: number;
  readonly line: number;
  readonly line2h: number;
}

/** The forecast of a Theil–Sen line in log time since the last move. */
function lineAt({ moves, readings }: StringLog, atSeconds: number): number {
  const moved = moves.at(-1)?.atSeconds ?? 0;
  const x = (at: number) => Math.log10(1 + (at - moved) / minute);
  const line = theilSen(readings.map(({ atSeconds: at, cents }) => ({ x: x(at), y: cents })));
  return line === null ? (readings.at(-1)?.cents ?? 0) : line.intercept + line.slope * x(atSeconds);
}

function outcome({ kind, log, nowSeconds, truth }: Scenario, law: LawKind): Outcome {
  const [assessment] = assess({ courses: [log], nowSeconds, policy });
  const [soon, late] = [nowSeconds + 30 * minute, nowSeconds + 120 * minute];
  const forecast = assessment!.forecast(soon);
  const last = log.readings.at(-1)?.cents ?? 0;
  return {
    kind,
    law,
    error: forecast.cents - truth(soon),
    error2h: assessment!.forecast(late).cents - truth(late),
    covered: forecast.low <= truth(soon) && truth(soon) <= forecast.high,
    width: forecast.high - forecast.low,
    lastValue: last - truth(soon),
    lastValue2h: last - truth(late),
    line: lineAt(log, soon) - truth(soon),
    line2h: lineAt(log, late) - truth(late),
  };
}

const draw = (seed: number, count: number, retunesBefore: number): readonly Outcome[] => {
  const random = seededRandom(seed);
  return Array.from({ length: count }, () => {
    const law = random.pick(lawKinds);
    return outcome(drawScenario(random, random.pick(mix), law, { retunesBefore }), law);
  });
};

const errors = (outcomes: readonly Outcome[], of: keyof Outcome): string => sizes(outcomes.map((one) => one[of] as number));
const coverage = (outcomes: readonly Outcome[]): string => share(outcomes.map(({ covered }) => covered));

const row = (name: string, outcomes: readonly Outcome[]) => [
  name,
  errors(outcomes, 'lastValue'),
  errors(outcomes, 'line'),
  errors(outcomes, 'error'),
  coverage(outcomes),
  errors(outcomes, 'width').split(' / ')[0] ?? '',
  errors(outcomes, 'lastValue2h'),
  errors(outcomes, 'line2h'),
  errors(outcomes, 'error2h'),
];

/** Prints the forecast tables. */
export function forecasts(seed: number, count: number): void {
  const fresh = draw(seed, count, 0);
  const known = draw(seed + 1, count, 4);
  const head = [
    '',
    'last value',
    'Theil–Sen',
    'forecast',
    '90 % band holds',
    'band width',
    '2 h: last value',
    '2 h: Theil–Sen',
    '2 h: forecast',
  ];
  print(`Forecast 30 min and 2 h ahead, median / 90th |error| in cents (${count} sessions of 10 min a row group)`, head, [
    row('never seen before', fresh),
    row('past known (4 retunes)', known),
    ...kinds.map((kind) =>
      row(
        `  ${kind}`,
        fresh.filter((one) => one.kind === kind),
      ),
    ),
    ...lawKinds.map((law) =>
      row(
        `  ${law}`,
        fresh.filter((one) => one.law === law),
      ),
    ),
    ...kinds.map((kind) =>
      row(
        `  known: ${kind}`,
        known.filter((one) => one.kind === kind),
      ),
    ),
    ...lawKinds.map((law) =>
      row(
        `  known: ${law}`,
        known.filter((one) => one.law === law),
      ),
    ),
  ]);
  print(
    'The same, kind × law, never seen before: |error| 30 min ahead and coverage',
    ['', ...lawKinds],
    kinds.map((kind) => [
      kind,
      ...lawKinds.map((law) => {
        const cell = fresh.filter((one) => one.kind === kind && one.law === law);
        return `${errors(cell, 'error')}  ${coverage(cell)}`;
      }),
    ]),
  );
}

/** Prints how the forecast from the first two readings improves with the retunes of one string. */
export function learningCurve(seed: number, count: number): void {
  const rows = [1, 3, 8].map((retune) => {
    const random = seededRandom(seed);
    const pairs = Array.from({ length: count }, () => {
      const { log, tunedAtSeconds, truth } = drawScenario(random, 'plain', undefined, { retunesBefore: retune - 1 });
      const readings = log.readings.slice(0, 2);
      const nowSeconds = readings.at(-1)?.atSeconds ?? tunedAtSeconds;
      const at = nowSeconds + 30 * minute;
      const forecast = assess({ courses: [{ ...log, readings }], nowSeconds, policy })[0]!.forecast(at);
      return {
        ours: forecast.cents - truth(at),
        line: lineAt({ ...log, readings }, at) - truth(at),
        covered: forecast.low <= truth(at) && truth(at) <= forecast.high,
      };
    });
    return [
      `retune ${retune}`,
      sizes(pairs.map(({ line }) => line)),
      sizes(pairs.map(({ ours }) => ours)),
      share(pairs.map(({ covered }) => covered)),
    ];
  });
  print('From the first two readings, 30 min ahead, plain sessions', ['', 'Theil–Sen', 'forecast', '90 % band holds'], rows);
}
