import { median } from 'simple-statistics';
import { smallestSigmaCents, type Stretch } from './layout.ts';
import { theilSen } from './theil-sen.ts';
import type { Reading } from './types.ts';
import { splitAtGaps } from './weather.ts';

// Where the robust fit starts from: how much to doubt each reading, 1 = not at all.

const sigmaOf = ({ sigmaCents }: Reading): number => Math.max(sigmaCents, smallestSigmaCents);

/**
 * Doubts of a stretch. In its first sitting by the distance from the Theil–Sen line in log time (of fewer than four readings, from the one
 * nearest to where the string is expected); in later sittings, which weather sets apart, by the distance from their own median.
 */
export const firstDoubts = (stretch: Stretch): readonly number[] =>
  splitAtGaps(stretch.readings).flatMap((sitting, index) => {
    if (index > 0) return fromMedian(sitting);
    return sitting.length < 4 ? fromNearest(sitting, stretch.levelCents) : fromLine(sitting, stretch.fromSeconds);
  });

function fromMedian(sitting: readonly Reading[]): readonly number[] {
  if (sitting.length < 3) return sitting.map(() => 1);
  const centre = median(sitting.map(({ cents }) => cents));
  return sitting.map((reading) => 1 + ((reading.cents - centre) / (5 * sigmaOf(reading))) ** 2);
}

function fromNearest(sitting: readonly Reading[], expectedCents: number): readonly number[] {
  const distances = sitting.map(({ cents }) => Math.abs(cents - expectedCents));
  const nearest = Math.min(...distances);
  return sitting.map((reading) => 1 + ((Math.abs(reading.cents - expectedCents) - nearest) / (5 * sigmaOf(reading))) ** 2);
}

function fromLine(sitting: readonly Reading[], movedAtSeconds: number): readonly number[] {
  const since = Math.max(movedAtSeconds, (sitting[0]?.atSeconds ?? 0) - 60);
  const logTime = (reading: Reading) => Math.log10(1 + (reading.atSeconds - since) / 60);
  const line = theilSen(sitting.map((reading) => ({ x: logTime(reading), y: reading.cents })));
  if (line === null) return sitting.map(() => 1);
  return sitting.map((reading) => {
    const distance = reading.cents - line.intercept - line.slope * logTime(reading);
    return 1 + (distance / (2 * Math.max(sigmaOf(reading), line.spread))) ** 2;
  });
}
