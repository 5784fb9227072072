import { fifthsTunings, otherFourCourseTunings, ukuleleTunings } from './four-courses.ts';
import { banjoTunings, guitarTunings, otherTunings } from './more-courses.ts';
import type { TuningPreset } from './row.ts';

export type { TuningPreset } from './row.ts';

/** Starter tunings, by what the open courses make or what moved from home. One row serves every instrument whose home has the same shape. */
export const tuningPresets: readonly TuningPreset[] = [
  ...ukuleleTunings,
  ...guitarTunings,
  ...banjoTunings,
  ...fifthsTunings,
  ...otherFourCourseTunings,
  ...otherTunings,
];
