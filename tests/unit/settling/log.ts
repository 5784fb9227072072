import type { Assessment, Move, Policy, Reading, RetuneLog, StringFacts, StringLog } from '#shared/settling/index.ts';
import { assess } from '#shared/settling/index.ts';
import { seededRandom, type Random } from '#shared/simulation/strings/index.ts';

/** A plain nylon string that has been on for two months. */
export const nylon: StringFacts = { material: 'nylon', wound: false, daysSinceChange: 60 };
/** Three cents for half an hour. */
export const policy: Policy = { toleranceCents: 3, horizonSeconds: 1800 };
/** Moments of a usual session, seconds after the retune. */
export const usualMoments: readonly number[] = [20, 45, 80, 130, 200, 300, 420, 600];

/** Readings along a curve with normal noise of the given sigma. */
export function readAlong(
  curve: (seconds: number) => number,
  sigmaCents = 0.5,
  moments = usualMoments,
  random: Random = seededRandom(11),
): readonly Reading[] {
  return moments.map((atSeconds) => ({ atSeconds, cents: curve(atSeconds) + random.normal(sigmaCents), sigmaCents }));
}

/** Logarithmic creep with an onset of one minute, cents per decade. */
export const creeping = (centsPerDecade: number) => (seconds: number) => centsPerDecade * Math.log10(1 + Math.max(0, seconds) / 60);

/** One string's log; raised by a whole tone at 0 unless told otherwise. */
export const logWith = (
  readings: readonly Reading[],
  moves: readonly Move[] = [{ atSeconds: 0, cents: 200 }],
  past: readonly RetuneLog[] = [],
): StringLog => ({
  string: nylon,
  moves,
  readings,
  past,
});

/** The assessment of one string among others at a moment (its last reading unless told otherwise). */
export function judge(log: StringLog, nowSeconds = log.readings.at(-1)?.atSeconds ?? 0, others: readonly StringLog[] = []): Assessment {
  const [assessment] = assess({ courses: [log, ...others], nowSeconds, policy });
  if (assessment === undefined) throw new RangeError('assess must answer for every string');
  return assessment;
}
