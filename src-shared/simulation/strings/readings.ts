import type { Reading } from '#shared/settling/index.ts';
import type { Random } from './random.ts';

/** How readings err. */
export interface ReadingNoise {
  /** What every reading claims, cents. */
  readonly sigmaCents: number;
  /** The true spread over the claimed one: 1 = honest. */
  readonly trueOverClaimed: number;
  /** Share of readings that are of something else (0…1). */
  readonly badShare: number;
}

const badLow = 6;
const badHigh = 40;

/** A reading of a true pitch: mostly near it, at times off by 6 to 40 cents either way (assumed). */
export function drawReading(random: Random, noise: ReadingNoise, atSeconds: number, trueCents: number): Reading {
  const bad = random.chance(noise.badShare) ? random.between(badLow, badHigh) * random.pick([-1, 1]) : 0;
  const sigmaCents = noise.sigmaCents * random.betweenLog(0.8, 1.25);
  return { atSeconds, cents: trueCents + bad + random.normal(sigmaCents * noise.trueOverClaimed), sigmaCents };
}

/** Moments at which a player plucks: about evenly in log time between two ends (seconds after the retune). */
export function drawMoments(random: Random, count: number, firstSeconds: number, lastSeconds: number): readonly number[] {
  const step = Math.log(lastSeconds / firstSeconds) / (count - 1);
  return Array.from({ length: count }, (_, index) => {
    const jitter = index === 0 || index === count - 1 ? 0 : random.between(-0.35, 0.35);
    return firstSeconds * Math.exp(step * (index + jitter));
  });
}
