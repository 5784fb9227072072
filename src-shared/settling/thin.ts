import { median } from 'simple-statistics';
import type { Reading } from './types.ts';

// A long log is thinned before it is fitted: the newest readings stay as they are, older ones become one median per log-spaced stretch.

const newest = 12;
const stretches = 28;

const insideOf = (reading: Reading, breaks: readonly number[]): number => breaks.filter((at) => at <= reading.atSeconds).length;

/** The median of a handful of readings, with the standard deviation of a median (π/2 · σ²/n), never below a tenth of a cent. */
function middle(readings: readonly Reading[]): Reading {
  const centre = readings[Math.floor(readings.length / 2)] as Reading;
  if (readings.length < 3) return centre;
  const sigmaCents = Math.max(0.1, median(readings.map((r) => r.sigmaCents)) * Math.sqrt(Math.PI / 2 / readings.length));
  return { atSeconds: centre.atSeconds, cents: median(readings.map((r) => r.cents)), sigmaCents };
}

/**
 * At most about forty readings that tell what all of them told; no group spans one of the `breaks` (turns of pegs).
 * Groups are even in log time since the first break, as creep is.
 */
export function thin(readings: readonly Reading[], breaks: readonly number[], keepNewest = newest): readonly Reading[] {
  if (readings.length <= keepNewest + stretches) return readings;
  const old = readings.slice(0, -keepNewest);
  const from = breaks.findLast((at) => at <= (old[0]?.atSeconds ?? 0)) ?? (old[0]?.atSeconds ?? 0) - 60;
  const logTime = (reading: Reading) => Math.log1p(Math.max(0, reading.atSeconds - from) / 60);
  const span = logTime(old.at(-1) as Reading) || 1;
  const groups = new Map<string, Reading[]>();
  for (const reading of old) {
    const key = `${insideOf(reading, breaks)}/${Math.floor((stretches * logTime(reading)) / (span * 1.0001))}`;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [reading]);
    else group.push(reading);
  }
  return [...[...groups.values()].map(middle), ...readings.slice(-keepNewest)];
}
