import { centsBetween, hertz } from '#shared/units/index.ts';

/** Frequency of partial n over the first, for a stiff string: n·√(1+Bn²)/√(1+B) (H. Fletcher, J. Acoust. Soc. Am. 36, 1964). */
export const stiffRatio = (partial: number, inharmonicity: number): number =>
  partial * Math.sqrt((1 + inharmonicity * partial * partial) / (1 + inharmonicity));

/** `centsBetween` for the plain numbers of a measurement. Throws RangeError at or below 0 hertz. */
export const centsApart = (heard: number, wanted: number): number => centsBetween(hertz(heard), hertz(wanted));

/** The frequency `cents` away from `from`, for the plain numbers of a measurement. */
export const shifted = (from: number, cents: number): number => from * 2 ** (cents / 1200);

/** Cents per unit of relative change: 1200/ln 2. */
export const centsPerRatio = 1200 / Math.LN2;
