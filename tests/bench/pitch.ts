// Measures the pitch tracker against plucks of known pitch, beside a plain use of pitchy, and prints tables. Asserts nothing.
//   npm run bench:pitch -- [--clips 10] [--seed 1000] [--only classes | "mains hum" | settling | strum | endurance | capture]
//                          [--minutes 10] [--ours] [--no-hint] [--worst]
import { parseArgs } from 'node:util';
import { captureTable } from './pitch/capture.ts';
import { settlingClasses, simulatedClasses } from './pitch/classes.ts';
import { endure } from './pitch/endurance.ts';
import { goalOfAll, goals, goalsOfSettling, goalOfSigma } from './pitch/goals.ts';
import { noRecordings, recordedClasses } from './pitch/recordings.ts';
import { noRendering, renderedClasses } from './pitch/rendered.ts';
import { strumTable } from './pitch/strums.ts';
import { createTable, settlingTable } from './pitch/table.ts';

const { values } = parseArgs({
  allowNegative: true,
  options: {
    clips: { type: 'string', default: '10' },
    seed: { type: 'string', default: '1000' },
    only: { type: 'string' },
    minutes: { type: 'string', default: '10' },
    ours: { type: 'boolean', default: false },
    hint: { type: 'boolean', default: true },
    worst: { type: 'boolean', default: false },
  },
});
const clips = Number(values.clips);
const seed = Number(values.seed);
const minutes = Number(values.minutes);
const seeds = Array.from({ length: clips }, (_, index) => seed + 101 * index);
const options = { naive: !values.ours, hint: values.hint, worst: values.worst };
const { only } = values;
const asked = (part: string) => only === undefined || only === part;

const classes = {
  ...simulatedClasses,
  ...(noRendering === null ? renderedClasses : {}),
  ...(noRecordings === null ? recordedClasses : {}),
};
const chosen = Object.entries(classes).filter(([name]) => asked('classes') || name.includes(only ?? ''));

// First of all: once pitchy has been used in single precision, as the naive readers do, fft.js runs slower for everyone.
if (asked('endurance')) endure(minutes);

if (chosen.length > 0) {
  console.log(
    `${clips} clips a class, seeds ${seed}, ${seed + 101} …; blocks of 10 ms, a fresh tracker for each clip; counted every 10 ms from`,
  );
  console.log(
    `150 ms after the pluck: the value shown, at most 100 ms old, against the string at that moment. Goal of sigma: ${goalOfSigma}.`,
  );
  for (const why of [noRendering, noRecordings]) if (why !== null) console.log(why);
  const table = createTable(options);
  table.head();
  for (const [name, make] of chosen) table.add(name, make(seeds), goals[name] ?? '–');
  table.all(goalOfAll);
}

if (asked('settling')) {
  const many = Array.from({ length: 4 * clips }, (_, index) => seed + 101 * index);
  console.log(`\nfrom the pluck until the value shown stays within 3 cents, in noise 40 dB below, ${many.length} clips a string`);
  const { C4, D3 } = settlingClasses;
  settlingTable({ C4: { clips: C4(many), goal: goalsOfSettling.C4 }, D3: { clips: D3(many), goal: goalsOfSettling.D3 } }, options);
}
if (asked('strum')) strumTable(clips, seed);
if (asked('capture')) await captureTable(minutes);
