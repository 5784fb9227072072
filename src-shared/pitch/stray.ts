/** Beyond any partial that is fitted. */
const places = 32;
/** Before anything else is known of a string, what its first fit says counts; then each fit changes the spread by this share. */
const spreadShare = 0.05;
/** By so much of the spread (in variance) a partial may have moved from one fit to the next: the body's pull beats slowly. */
const wanderShare = 0.003;
/** Fits overlap: so many of them make one independent look. */
const fitsPerLook = 10;

/**
 * How far each partial of the string followed keeps from the stiff-string formula, in cents. A body's resonances pull at the partials, each
 * its own way but steadily: where some are lost in noise, the others still tell where the string went, from where each of them was.
 * One scalar Kalman filter a partial (R. Kalman, J. Basic Eng. 82, 1960) under a common spread.
 */
export type Strays = {
  /** Cents off the formula, and the variance of that; nothing known: 0 and the whole spread. */
  centsOf: (partial: number) => number;
  varianceOf: (partial: number) => number;
  /** How far the partials of this string usually scatter (variance in cents²); null where nothing is known. */
  usual: () => number | null;
  /** Takes over how far the partials of one fit scatter (variance in cents²); to be called before `learn`. */
  spread: (variance: number) => void;
  /** Takes over one partial's residual and the variance that it was measured with. */
  learn: (partial: number, cents: number, variance: number) => void;
  forget: () => void;
};

export const createStrays = (): Strays => {
  const cents = new Float64Array(places);
  const variances = new Float64Array(places).fill(Infinity);
  let common: number | null = null;
  const whole = () => Math.max(0, common ?? 0);
  const varianceOf = (partial: number) => Math.min(variances[partial] ?? Infinity, whole());

  return {
    centsOf: (partial) => cents[partial] ?? 0,
    varianceOf,
    usual: () => common,
    spread: (variance) => {
      const before = whole();
      common = common === null ? variance : common + spreadShare * (variance - common);
      // What was learnt under a wider spread is no more than the narrower one allows.
      const shrink = before > 0 ? Math.min(1, Math.sqrt(whole() / before)) : 0;
      for (let partial = 0; partial < places; partial++) cents[partial] = shrink * (cents[partial] ?? 0);
    },
    learn: (partial, residual, variance) => {
      const before = Math.min(whole(), varianceOf(partial) + wanderShare * whole());
      const gain = before / (before + fitsPerLook * variance);
      cents[partial] = (cents[partial] ?? 0) + gain * (residual - (cents[partial] ?? 0));
      variances[partial] = (1 - gain) * before;
    },
    forget: () => {
      cents.fill(0);
      variances.fill(Infinity);
      common = null;
    },
  };
};
