import { expectedDriftCents, type Lesson } from '#shared/settling/index.ts';

// How a string creeps, as the coach needs it at every landing: the settling room's expectation for one semitone, kept as a table of
// ages, and added up over the turns (superposition, as there).

type Turn = { readonly atSeconds: number; readonly cents: number };

/** Creep of one semitone raised by age: its mean and its standard deviation in cents; and the turns of earlier days. */
export type Drift = { readonly meanCents: readonly number[]; readonly sigmaCents: readonly number[]; readonly turns: readonly Turn[] };

const firstAgeSeconds = 1;
const ageFactor = 2;
const ages = Array.from({ length: 19 }, (_, index) => firstAgeSeconds * ageFactor ** index);
/** Half-width of a 90 % band, in sigmas. */
const ninety = 1.645;

/** The table of a string that was learned, with its earlier turns. */
export function driftOf(lesson: Lesson, nowSeconds: number, turns: readonly Turn[]): Drift {
  const plan = { lesson, moves: [{ atSeconds: nowSeconds, cents: 100 }], nowSeconds };
  const forecasts = ages.map((age) => expectedDriftCents(plan, { fromSeconds: nowSeconds, untilSeconds: nowSeconds + age }));
  return {
    meanCents: forecasts.map(({ cents }) => cents),
    sigmaCents: forecasts.map(({ low, high }) => (high - low) / 2 / ninety),
    turns,
  };
}

/** How far a string is expected to creep between two moments, after the turns of earlier days and these, with its variance. */
export function driftBetween(drift: Drift, turns: readonly Turn[], fromSeconds: number, untilSeconds: number) {
  let [sum, sigma] = [0, 0];
  for (const { atSeconds, cents } of [...drift.turns, ...turns]) {
    const [from, until] = [fromSeconds - atSeconds, untilSeconds - atSeconds];
    sum += (cents / 100) * (at(drift.meanCents, until) - at(drift.meanCents, from));
    sigma += (cents / 100) * (at(drift.sigmaCents, until) - at(drift.sigmaCents, from));
  }
  return { cents: sum, variance: sigma ** 2 };
}

/** The table at an age: linear up to the first age, then in the logarithm of age. */
function at(table: readonly number[], ageSeconds: number): number {
  if (ageSeconds <= 0) return 0;
  const place = Math.log(ageSeconds / firstAgeSeconds) / Math.log(ageFactor);
  if (place <= 0) return (table[0] ?? 0) * (ageSeconds / firstAgeSeconds);
  const below = Math.min(Math.floor(place), table.length - 2);
  const [low, high] = [table[below] ?? 0, table[below + 1] ?? 0];
  return low + (high - low) * Math.min(1, place - below);
}
