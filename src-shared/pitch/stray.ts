/** Each fit changes the spread by this share; the first ones by more, so that all of them count alike: the very first may say little. */
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
  let clarities = 0;
  return {
    usual: () => common,
    learn: (variance, clarity) => {
      clarities += clarity;
      const share = clarity * Math.max(spreadShare, 1 / (clarities + 1e-30));
      common = common === null ? variance : common + share * (variance - common);
    },
    forget: () => {
      common = null;
      clarities = 0;
    },
  };
};
