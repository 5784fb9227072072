import { createPitchTracker } from '#shared/pitch/index.ts';
import { addNoise, pluckSound } from '#shared/simulation/sound/index.ts';
import { heldMegabytes, minuteByMinute, usedMegabytes } from './heap.ts';
import { quantile } from './score.ts';
import { head, row } from './table.ts';

const strings = [391.995, 261.626, 329.628, 440];
const pluckSeconds = 2.5;
const plucksPerMinute = 60 / pluckSeconds;
/** Within so many plucks the machine compiles what it runs. */
const plucksAtFirst = 8;

/**
 * Ten minutes of a ukulele plucked every 2.5 s, in blocks of 10 ms: processor time as a share of one core, milliseconds of it per block (of
 * all threads, so that other work on the machine does not count), how much is allocated, and what the heap holds after each minute.
 */
const endureAt = (minutes: number, sampleRateHertz: number) => {
  const sounds = strings.map((hertz, index) => {
    const pluck = pluckSound({ hertz, sampleRateHertz, seconds: pluckSeconds, seed: 300 + index, pluckedAtSeconds: 0.05, glideCents: 2 });
    return addNoise(pluck.samples, { ratioDecibels: 35, sampleRateHertz, seed: 300 + index });
  });
  const blockSamples = Math.round(sampleRateHertz / 100);
  const plucks = Math.round(minutes * plucksPerMinute);
  const tracker = createPitchTracker({ sampleRateHertz, hint: { hertz: strings, asked: null } });
  const costs = new Float64Array(plucks * Math.floor((pluckSeconds * sampleRateHertz) / blockSamples));
  const held: number[] = [];
  const allocated: number[] = [];
  let blocks = 0;
  let blocksAtFirst = 0;
  let frames = 0;
  let spent = 0;
  for (let pluck = 0; pluck < plucks; pluck++) {
    const samples = sounds[pluck % sounds.length] ?? new Float32Array();
    const before = usedMegabytes();
    for (let start = 0; start + blockSamples <= samples.length; start += blockSamples) {
      const started = process.cpuUsage();
      const events = tracker.push(samples.subarray(start, start + blockSamples));
      const { user, system } = process.cpuUsage(started);
      for (const { kind } of events) if (kind === 'frame') frames++;
      spent += user + system;
      costs[blocks++] = (user + system) / 1_000;
    }
    // A collection in between makes it less than nothing.
    allocated.push(usedMegabytes() - before);
    if (pluck + 1 === plucksAtFirst) blocksAtFirst = blocks;
    if ((pluck + 1) % plucksPerMinute === 0) held.push(heldMegabytes());
  }
  const seconds = plucks * pluckSeconds;
  return {
    corePercent: spent / 1e4 / seconds,
    blocks,
    framesPerSecond: frames / seconds,
    p50: quantile([...costs], 0.5),
    p99: quantile([...costs], 0.99),
    worst: quantile([...costs], 1),
    worstLater: quantile([...costs.subarray(blocksAtFirst)], 1),
    late: costs.filter((cost) => cost > 10).length,
    allocatedPerMinute:
      quantile(
        allocated.filter((megabytes) => megabytes > 0),
        0.5,
      ) * plucksPerMinute,
    held,
  };
};

/** Prints what the tracker costs over so many minutes of sound, at two sample rates. */
export const endure = (minutes: number) => {
  console.log(`\n${minutes} minutes of plucks, pushed in blocks of 10 ms`);
  head([
    'samples a second',
    'share of a core',
    `ms a block 50 % / 99 % / worst / after ${plucksAtFirst * pluckSeconds} s`,
    'blocks over 10 ms',
    'frames a second',
    'MB allocated a minute',
    'MB held after each minute',
  ]);
  for (const rate of [48_000, 96_000]) {
    const { corePercent, p50, p99, worst, worstLater, late, blocks, framesPerSecond, allocatedPerMinute, held } = endureAt(minutes, rate);
    row([
      String(rate),
      `${corePercent.toFixed(1)} %`,
      `${p50.toFixed(2)} / ${p99.toFixed(1)} / ${worst.toFixed(1)} / ${worstLater.toFixed(1)}`,
      `${late} of ${blocks}`,
      framesPerSecond.toFixed(0),
      allocatedPerMinute.toFixed(0),
      minuteByMinute(held),
    ]);
  }
};
