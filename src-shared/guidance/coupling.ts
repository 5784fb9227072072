// How far one string moves when another is turned: the neck, the bridge and the top give way.
// String i loses k_i·ΔT_j/K newtons when string j gains ΔT_j, k_i = E·A/L the string's own stiffness and K the body's, so it moves
// by −(600/ln 2)·(k_i/K)·ΔT_j/T_i cents. With E/ρ alike within a material, k_i/K = κ·μ_i·(E/ρ): one unknown stiffness for an
// instrument, and each pair a little different. A Gaussian belief over all pairs, sharpened by every jump that is heard.

/** The belief about `pairs`: entry `i·n + j` is the share of a newton that string i loses when string j gains one. */
export type Coupling = { readonly strings: number; readonly mean: readonly number[]; readonly covariance: readonly number[] };

/** What is expected of a string, in cents. */
export type Expected = { readonly cents: number; readonly variance: number };

/** Cents that a string moves for a gain of its own pull by a share: 600·log2(1 + x) ≈ 865.6·x. */
const centsPerShare = 600 / Math.LN2;

// ASSUMED: no measurement of a small instrument was found. A string as stiff as the average one loses 1.2 % of what another gains.
const usualShare = 0.012;
/** One stiffness per instrument: how far it may be from the usual one, as a share; and each pair from the instrument's. */
const stiffnessDeviation = 0.9;
const pairDeviation = 0.35;

/** What is believed before anything is heard. `stiffness` is each string's own, in any unit: only the proportions count. */
export function assumedCoupling(stiffness: readonly number[]): Coupling {
  const strings = stiffness.length;
  const average = stiffness.reduce((sum, one) => sum + one, 0) / strings;
  const mean: number[] = [];
  for (let of = 0; of < strings; of += 1)
    for (let by = 0; by < strings; by += 1) mean.push(of === by ? 0 : (usualShare * (stiffness[of] ?? average)) / average);
  const covariance = mean.flatMap((a, row) =>
    mean.map((b, column) => a * b * (stiffnessDeviation ** 2 + (row === column ? pairDeviation ** 2 : 0))),
  );
  return { strings, mean, covariance };
}

/** How far a string of pull `newtons` is expected to have moved, in cents, when the others gained so much. */
export function expectedShift(coupling: Coupling, of: number, newtons: number, gained: readonly number[]): Expected {
  const row = rowOf(coupling, of, newtons, gained);
  const size = coupling.mean.length;
  let [shift, variance] = [0, 0];
  for (const [a, weight] of row) {
    shift += weight * (coupling.mean[a] ?? 0);
    for (const [b, other] of row) variance += weight * other * (coupling.covariance[a * size + b] ?? 0);
  }
  return { cents: shift, variance };
}

/** The belief after a string was heard to move by `cents` (with its variance) while the others gained so much. Kalman's update. */
export function hearShift(
  coupling: Coupling,
  of: number,
  { newtons, gained, cents, variance }: { newtons: number; gained: readonly number[]; cents: number; variance: number },
): Coupling {
  const row = rowOf(coupling, of, newtons, gained);
  const size = coupling.mean.length;
  const expected = expectedShift(coupling, of, newtons, gained);
  const total = expected.variance + variance;
  if (row.length === 0 || expected.variance < minVariance) return coupling;
  const across = coupling.mean.map((_, at) =>
    row.reduce((sum, [a, weight]) => sum + weight * (coupling.covariance[a * size + at] ?? 0), 0),
  );
  // A jump that nothing explains (a slip, a wrong string) must not turn the belief over: beyond three sigmas it counts for three.
  const surprise = cents - expected.cents;
  const bound = 3 * Math.sqrt(total);
  const heeded = Math.max(-bound, Math.min(bound, surprise));
  return {
    ...coupling,
    mean: coupling.mean.map((value, at) => value + ((across[at] ?? 0) * heeded) / total),
    covariance: coupling.covariance.map((value, at) => {
      const [a, b] = [Math.floor(at / size), at % size];
      return value - ((across[a] ?? 0) * (across[b] ?? 0)) / total;
    }),
  };
}

const minVariance = 1e-6;

/** The pairs that count, each with the cents a share of 1 would make. */
const rowOf = ({ strings }: Coupling, of: number, newtons: number, gained: readonly number[]): readonly (readonly [number, number])[] =>
  gained.flatMap((gain, by) => (by === of || gain === 0 ? [] : [[of * strings + by, (-centsPerShare * gain) / newtons] as const]));
