// Measures the pitch tracker against plucks of exactly known pitch, beside a plain use of pitchy, and prints the table. Asserts nothing.
//   npm run bench:pitch -- [--clips 12] [--seed 1000] [--only "mains hum" | strum | endurance] [--minutes 10] [--ours]
import { parseArgs } from 'node:util';
import { classes, clipOf } from './pitch/classes.ts';
import { addTo, emptyScore, quantile, readers, show } from './pitch/score.ts';
import { boundCents } from './pitch/bound.ts';
import { endure } from './pitch/endurance.ts';
import { measureStrums, strums } from './pitch/strums.ts';

const { values } = parseArgs({
  options: {
    clips: { type: 'string', default: '12' },
    seed: { type: 'string', default: '1000' },
    only: { type: 'string' },
    minutes: { type: 'string', default: '10' },
    ours: { type: 'boolean', default: false },
    worst: { type: 'boolean', default: false },
  },
});
const clips = Number(values.clips);
const chosen = Object.keys(classes).filter((name) => values.only === undefined || name.includes(values.only));
const shownReaders = Object.entries(readers).filter(([name]) => !values.ours || name === 'ours');

const share = (part: number, whole: number) => (whole === 0 ? '–' : `${((100 * part) / whole).toFixed(1)} %`);
const row = (cells: readonly string[]) => console.log(`| ${cells.join(' | ')} |`);

console.log(`${clips} clips a class, seeds from ${values.seed}; every 10 ms from 150 ms after the pluck; value at most 100 ms old`);
row([
  'class',
  'by',
  'median',
  '95th',
  'within 3 c',
  'within 1 c',
  'gross',
  'missed',
  'before pluck',
  'settled ms 50/90 %',
  'in 1σ / 2σ',
  'ms a block mean/p99/max',
  'bound σ',
]);
row(Array.from({ length: 13 }, () => '---'));
for (const name of chosen) {
  const made = Array.from({ length: clips }, (_, index) => clipOf(name, Number(values.seed) + 101 * index));
  const bounds = made.map(boundCents).filter((bound) => bound !== null);
  for (const [by, reader] of shownReaders) {
    const score = emptyScore();
    const costs: number[] = [];
    for (const [index, clip] of made.entries()) {
      const one = emptyScore();
      const run = show(clip, reader(clip));
      addTo(score, clip, run.shown);
      addTo(one, clip, run.shown);
      costs.push(...run.costs);
      const good = one.errors.filter((error) => Math.abs(error) <= 3).length;
      if (values.worst && good < 0.95 * one.ticks)
        console.log(
          `  ${name} seed ${Number(values.seed) + 101 * index}: ${clip.clean.truthHertz(1).toFixed(2)} Hz good ${good}/${one.ticks} missed ${one.missed} median ${quantile(one.errors, 0.5).toFixed(2)}`,
        );
    }
    const within = (limit: number) => score.errors.filter((error) => Math.abs(error) <= limit).length;
    row([
      name,
      by,
      quantile(score.errors, 0.5).toFixed(3),
      quantile(score.errors, 0.95).toFixed(2),
      share(within(3), score.ticks),
      share(within(1), score.ticks),
      share(score.errors.length - within(50), score.ticks),
      share(score.missed, score.ticks),
      share(score.shownBefore, score.ticksBefore),
      `${(1000 * quantile(score.settleSeconds, 0.5)).toFixed(0)} / ${(1000 * quantile(score.settleSeconds, 0.9)).toFixed(0)}`,
      `${share(score.ratios.filter((ratio) => ratio <= 1).length, score.ratios.length)} / ${share(score.ratios.filter((ratio) => ratio <= 2).length, score.ratios.length)}`,
      `${(costs.reduce((sum, cost) => sum + cost, 0) / costs.length).toFixed(2)} / ${quantile(costs, 0.99).toFixed(1)} / ${quantile(costs, 1).toFixed(1)}`,
      bounds.length === 0 ? '–' : quantile(bounds, 0.5).toFixed(4),
    ]);
  }
}

if (values.only === undefined || values.only === 'strum') {
  console.log(`\nstrums in noise 30 dB below, ${clips} of each`);
  row(['strum', 'median', '95th', 'in 1σ / 2σ', 'refused', 'ms']);
  row(Array.from({ length: 6 }, () => '---'));
  for (const [name, courses] of Object.entries(strums)) {
    const { errors, ratios, refusals, milliseconds } = measureStrums(courses, clips, Number(values.seed));
    const inside = (limit: number) => share(ratios.filter((ratio) => ratio <= limit).length, ratios.length);
    const refused = [...refusals].map(([reason, count]) => `${reason} ${share(count, courses.flat().length * clips)}`).join(', ');
    row([
      name,
      quantile(errors, 0.5).toFixed(2),
      quantile(errors, 0.95).toFixed(2),
      `${inside(1)} / ${inside(2)}`,
      refused || '–',
      milliseconds.toFixed(0),
    ]);
  }
}

if (values.only === undefined || values.only === 'endurance') {
  console.log(`\n${values.minutes} minutes of plucks, pushed in blocks of 10 ms`);
  row([
    'samples a second',
    'share of a core',
    'ms a block 50 % / 99 % / worst',
    'blocks later than 10 ms',
    'frames a second',
    'heap growth MB',
  ]);
  row(Array.from({ length: 6 }, () => '---'));
  for (const rate of [48_000, 96_000]) {
    const { corePercent, p50, p99, worst, late, blocks, framesPerSecond, heapGrowthMegabytes } = endure(Number(values.minutes), rate);
    row([
      String(rate),
      `${corePercent.toFixed(1)} %`,
      `${p50.toFixed(2)} / ${p99.toFixed(1)} / ${worst.toFixed(1)}`,
      `${late} of ${blocks}`,
      framesPerSecond.toFixed(0),
      heapGrowthMegabytes.toFixed(1),
    ]);
  }
}
