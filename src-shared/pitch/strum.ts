import { createConditioner, type Conditioned } from './condition.ts';
import { lineUp } from './lineup.ts';
import { readStrings, type StringReading } from './strings.ts';
import type { RefusalReason } from './types.ts';

const stretchSamples = 8_192;
const leastSamples = 3_000;
const quietDecibels = -75;
const afterOnsetSeconds = 0.025;

/** Where the strum is over and every string rings: after the last rise of the level near its maximum. */
const ringingFrom = ({ samples, end, rateHertz }: Conditioned): number => {
  const hop = Math.round(0.01 * rateHertz);
  const levels: number[] = [];
  for (let from = 0; from + hop <= end; from += hop) {
    let energy = 0;
    for (let index = from; index < from + hop; index++) energy += (samples[index] ?? 0) ** 2;
    levels.push(energy);
  }
  const loudest = levels.indexOf(Math.max(...levels));
  let last = loudest;
  for (let index = loudest; index < Math.min(levels.length, loudest + 30); index++)
    if ((levels[index] ?? 0) > 1.6 * (levels[index - 1] ?? Infinity) && (levels[index] ?? 0) > 0.05 * (levels[loudest] ?? 0)) last = index;
  return (last + 1) * hop + Math.round(afterOnsetSeconds * rateHertz);
};

/** See index.ts. */
export const readStrum = (
  samples: Float32Array,
  { sampleRateHertz, courses }: { sampleRateHertz: number; courses: readonly (readonly number[])[] },
): readonly (readonly StringReading[])[] => {
  const conditioner = createConditioner(sampleRateHertz);
  const tooMany = Math.max(0, samples.length - Math.floor(1.25 * sampleRateHertz));
  for (let index = tooMany; index < samples.length; index++) conditioner.take(samples[index] ?? 0);
  const { state } = conditioner;
  const all = (refusal: RefusalReason) => courses.map((strings) => strings.map(() => ({ refusal })));
  const start = ringingFrom(state);
  const length = Math.min(stretchSamples, state.end - start);
  let energy = 0;
  for (let index = 0; index < state.end; index++) energy += (state.samples[index] ?? 0) ** 2;
  if (10 * Math.log10(energy / Math.max(1, state.end) + 1e-20) < quietDecibels) return all('silence');
  if (length < leastSamples) return all('attack');

  return readStrings(lineUp(state.samples, start, length, state.rateHertz), courses, state.rateHertz / length);
};
