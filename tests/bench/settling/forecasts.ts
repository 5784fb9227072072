// How far forecasts err, and how often the 90 % band holds the truth: laws and kinds of session × forecasters.
import { median } from 'simple-statistics';
import { assess, theilSen, type StringLog } from '#shared/settling/index.ts';
import { lawKinds, seededRandom, type LawKind } from '#shared/simulation/strings/index.ts';
import { drawScenario, kinds, minute, mix, type Kind, type Options, type Scenario } from './scenarios.ts';
import { ninetieth, print, share, sizes } from './table.ts';

const policy = { toleranceCents: 3, horizonSeconds: 30 * minute };

/** Who forecasts: the last reading; a Theil–Sen line in log time; the settling room; one who is shown the creep and has only to find the level. */
const forecasters = ['last value', 'Theil–Sen', 'ours', 'limit'] as const;
type Forecaster = (typeof forecasters)[number];
type Errors = Readonly<Record<Forecaster, number>>;

interface Outcome {
  readonly kind: Kind;
  readonly law: LawKind;
  readonly soon: Errors;
  readonly late: Errors;
  readonly covered: boolean;
  readonly width: number;
}

/** The forecast of a Theil–Sen line in log time since the last move. */
function lineAt({ moves, readings }: StringLog, atSeconds: number): number {
  const moved = moves.at(-1)?.atSeconds ?? 0;
  const x = (at: number) => Math.log10(1 + (at - moved) / minute);
  const line = theilSen(readings.map(({ atSeconds: at, cents }) => ({ x: x(at), y: cents })));
  return line === null ? (readings.at(-1)?.cents ?? 0) : line.intercept + line.slope * x(atSeconds);
}

function outcome({ kind, log, nowSeconds, truth }: Scenario, law: LawKind): Outcome {
  const { forecast } = assess({ courses: [log], nowSeconds, policy })[0]!;
  const last = log.readings.at(-1)!.cents;
  const limit = median(log.readings.map(({ atSeconds, cents }) => cents - truth(atSeconds)));
  const errorsAt = (at: number): Errors => ({
    'last value': last - truth(at),
    'Theil–Sen': lineAt(log, at) - truth(at),
    ours: forecast(at).cents - truth(at),
    limit,
  });
  const soon = nowSeconds + 30 * minute;
  const { low, high } = forecast(soon);
  const covered = low <= truth(soon) && truth(soon) <= high;
  return { kind, law, soon: errorsAt(soon), late: errorsAt(nowSeconds + 120 * minute), covered, width: high - low };
}

const draw = (seed: number, count: number, options: Options): readonly Outcome[] => {
  const random = seededRandom(seed);
  return Array.from({ length: count }, () => {
    const law = random.pick(lawKinds);
    return outcome(drawScenario(random, random.pick(mix), law, options), law);
  });
};

const of = (outcomes: readonly Outcome[], when: 'soon' | 'late', who: Forecaster) => outcomes.map((one) => one[when][who]);
const coverage = (outcomes: readonly Outcome[]): string => share(outcomes.map(({ covered }) => covered));

const head = ['', ...forecasters, '90 % band holds', 'width', ...forecasters.map((who) => `2 h: ${who}`)];

const row = (name: string, outcomes: readonly Outcome[]) => [
  name,
  ...forecasters.map((who) => sizes(of(outcomes, 'soon', who))),
  coverage(outcomes),
  sizes(outcomes.map(({ width }) => width)),
  ...forecasters.map((who) => sizes(of(outcomes, 'late', who))),
];

const split = (outcomes: readonly Outcome[]) => [
  ...lawKinds.map((law) => ({ name: `  ${law}`, cell: outcomes.filter((one) => one.law === law) })),
  ...kinds.map((kind) => ({ name: `  ${kind}`, cell: outcomes.filter((one) => one.kind === kind) })),
];

/** Where it fails: a row or cell whose band holds under 80 %, or in which a plain baseline has the smaller 90th percentile. */
function failures(outcomes: readonly Outcome[]): readonly string[] {
  const cells = kinds.flatMap((kind) =>
    lawKinds.map((law) => ({ name: `${kind}, ${law}`, cell: outcomes.filter((one) => one.kind === kind && one.law === law) })),
  );
  return [...split(outcomes), ...cells].flatMap(({ name, cell }) => {
    const held = cell.filter(({ covered }) => covered).length / cell.length;
    const ours = ninetieth(of(cell, 'soon', 'ours'));
    const better = (['last value', 'Theil–Sen'] as const).filter((who) => ninetieth(of(cell, 'soon', who)) < ours);
    return [
      ...(held < 0.8 ? [`${name.trim()}: the band holds ${coverage(cell)} of ${cell.length}`] : []),
      ...better.map(
        (who) => `${name.trim()}: ${who} is better (${sizes(of(cell, 'soon', who))} against ${sizes(of(cell, 'soon', 'ours'))})`,
      ),
    ];
  });
}

/** Prints the forecast tables. */
export function forecasts(seed: number, count: number): void {
  const groups: readonly (readonly [string, Options])[] = [
    ['never seen before', {}],
    ['past known (4 retunes)', { retunesBefore: 4 }],
    ['laws and rates drawn from farther around, never seen before', { spread: 1.6 }],
    ['laws and rates drawn from farther around, past known', { spread: 1.6, retunesBefore: 4 }],
  ];
  for (const [index, [name, options]] of groups.entries()) {
    const outcomes = draw(seed + index, count, options);
    print(`Forecast 30 min and 2 h ahead, median / 90th |error| in cents: ${name} (${count} sessions of 10 min)`, head, [
      row('all', outcomes),
      ...split(outcomes).map((part) => row(part.name, part.cell)),
    ]);
    print(
      'The same, kind × law: |error| 30 min ahead, and how often the band holds',
      ['', ...lawKinds],
      kinds.map((kind) => [
        kind,
        ...lawKinds.map((law) => {
          const cell = outcomes.filter((one) => one.kind === kind && one.law === law);
          return `${sizes(of(cell, 'soon', 'ours'))}  ${coverage(cell)}`;
        }),
      ]),
    );
    const failing = failures(outcomes);
    console.log(failing.length === 0 ? '  Fails nowhere.' : failing.map((line) => `  Fails: ${line}`).join('\n'));
  }
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
        moved: truth(at) - truth(nowSeconds),
        limit: median(readings.map(({ atSeconds, cents }) => cents - truth(atSeconds))),
        ours: forecast.cents - truth(at),
        line: lineAt({ ...log, readings }, at) - truth(at),
        covered: forecast.low <= truth(at) && truth(at) <= forecast.high,
      };
    });
    return [
      `retune ${retune}`,
      sizes(pairs.map(({ moved }) => moved)),
      sizes(pairs.map(({ line }) => line)),
      sizes(pairs.map(({ ours }) => ours)),
      sizes(pairs.map(({ limit }) => limit)),
      share(pairs.map(({ covered }) => covered)),
    ];
  });
  const columns = ['', 'it moves', 'Theil–Sen', 'ours', 'limit', '90 % band holds'];
  print('From the first two readings, 30 min ahead, plain sessions', columns, rows);
}
