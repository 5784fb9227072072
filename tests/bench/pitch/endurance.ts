import { createPitchTracker } from '#shared/pitch/index.ts';
import { addNoise, pluckSound } from '#shared/simulation/sound/index.ts';
import { quantile } from './score.ts';
import { head, row } from './table.ts';

const strings = [391.995, 261.626, 329.628, 440];
const pluckSeconds = 2.5;

/**
 * Ten minutes of a ukulele plucked every 2.5 s, in blocks of 10 ms: processor time as a share of one core, milliseconds of it per block (of
 * all threads, so that other work on the machine does not count), and
 * how much the heap has grown between the first minute and the last (after a collection where node runs with --expose-gc).
 */
const endureAt = (minutes: number, sampleRateHertz: number) => {
  const sounds = strings.map((hertz, index) => {
    const pluck = pluckSound({ hertz, sampleRateHertz, seconds: pluckSeconds, seed: 300 + index, pluckedAtSeconds: 0.05, glideCents: 2 });
    return addNoise(pluck.samples, { ratioDecibels: 35, sampleRateHertz, seed: 300 + index });
  });
  const blockSamples = Math.round(sampleRateHertz / 100);
  const tracker = createPitchTracker({ sampleRateHertz, hint: { hertz: strings, asked: null } });
  const costs: number[] = [];
  const heapOf = () => {
    globalThis.gc?.();
    return process.memoryUsage().heapUsed / 2 ** 20;
  };
  let frames = 0;
  let heapAtFirst = 0;
  const used = process.cpuUsage();
  for (let pluck = 0; pluck * pluckSeconds < minutes * 60; pluck++) {
    const samples = sounds[pluck % sounds.length] ?? new Float32Array();
    for (let start = 0; start + blockSamples <= samples.length; start += blockSamples) {
      const started = process.cpuUsage();
      frames += tracker.push(samples.subarray(start, start + blockSamples)).filter((event) => event.kind === 'frame').length;
      const { user, system } = process.cpuUsage(started);
      costs.push((user + system) / 1_000);
    }
    if (pluck === Math.round(60 / pluckSeconds)) heapAtFirst = heapOf();
  }
  const spent = process.cpuUsage(used);
  return {
    corePercent: (spent.user + spent.system) / 1e4 / (minutes * 60),
    blocks: costs.length,
    framesPerSecond: frames / (minutes * 60),
    p50: quantile(costs, 0.5),
    p99: quantile(costs, 0.99),
    worst: quantile(costs, 1),
    late: costs.filter((cost) => cost > 10).length,
    heapGrowthMegabytes: heapOf() - heapAtFirst,
  };
};

/** Prints what the tracker costs over so many minutes of sound, at two sample rates. */
export const endure = (minutes: number) => {
  console.log(`\n${minutes} minutes of plucks, pushed in blocks of 10 ms`);
  const figures = ['share of a core', 'ms a block 50 % / 99 % / worst', 'blocks over 10 ms', 'frames a second', 'heap growth MB'];
  head(['samples a second', ...figures]);
  for (const rate of [48_000, 96_000]) {
    const { corePercent, p50, p99, worst, late, blocks, framesPerSecond, heapGrowthMegabytes } = endureAt(minutes, rate);
    row([
      String(rate),
      `${corePercent.toFixed(1)} %`,
      `${p50.toFixed(2)} / ${p99.toFixed(1)} / ${worst.toFixed(1)}`,
      `${late} of ${blocks}`,
      framesPerSecond.toFixed(0),
      heapGrowthMegabytes.toFixed(1),
    ]);
  }
};
