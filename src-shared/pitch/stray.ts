/** Before anything else is known of a string, what its first fit says counts; then each fit changes the spread by this share. */
const spreadShare = 0.05;

/**
 * How far the partials of the string followed usually scatter about the stiff-string formula (variance in cents²). A body's resonances pull
 * at them, and where some are lost in noise, those left show it too little. An exponential average over the fits.
 */
export type Strays = {
  /** Null where nothing is known. */
  usual: () => number | null;
  /** Takes over how far the partials of one fit scatter; below 0 where they scatter less than their errors. `clarity`: what that is worth, 0…1. */
  learn: (variance: number, clarity: number) => void;
  forget: () => void;
};

export const createStrays = (): Strays => {
  let common: number | null = null;
  return {
    usual: () => common,
    learn: (variance, clarity) => {
      common = common === null ? variance : common + spreadShare * clarity * (variance - common);
    },
    forget: () => {
      common = null;
    },
  };
};
