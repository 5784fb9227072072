// The coach under random events: frames, pauses, lost devices, wrong strings, skipped courses, strums, new strings.
// Run: node src-main/node24.mjs tests/bench/fuzz.ts [RUNS SEED]. Prints what went wrong; a run that leaves no next step or advises a move outside the confirmed band is named by its seed.
import { fuzzRun } from './retune/fuzz.ts';

const runs = Number(process.argv[2] ?? 10_000);
const seed = Number(process.argv[3] ?? 1);

const faults = new Map<string, number[]>();
let events = 0;
for (let run = 0; run < runs; run += 1) {
  const own = seed + 7919 * run;
  const result = fuzzRun(own);
  events += result.events;
  for (const fault of result.faults) faults.set(fault, [...(faults.get(fault) ?? []), own]);
}
console.log(`${runs} runs from seed ${seed}, ${events} events: ${faults.size === 0 ? 'nothing wrong' : 'faults'}`);
for (const [fault, seeds] of faults) console.log(`  ${seeds.length} × ${fault} (seeds ${seeds.slice(0, 5).join(', ')})`);
