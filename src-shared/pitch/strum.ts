import { createConditioner } from './condition.ts';
import { createFollower } from './follow.ts';
import { unknownStiffness } from './series.ts';
import { centsApart } from './string.ts';
import type { RefusalReason, StringPitch } from './types.ts';

export type StrumReading = StringPitch | { readonly refusal: RefusalReason };

const reachCents = 60;

/** See index.ts. */
export const readStrum = (
  samples: Float32Array,
  { sampleRateHertz, courses }: { sampleRateHertz: number; courses: readonly (readonly number[])[] },
): readonly (readonly StrumReading[])[] => {
  const conditioner = createConditioner(sampleRateHertz);
  for (const sample of samples) conditioner.take(sample);
  const { state } = conditioner;
  const follower = createFollower(state.rateHertz);
  return courses.map((strings) =>
    strings.map((wanted) => {
      const estimate = follower.follow(
        state.samples,
        state.end,
        Math.min(5120, state.end),
        { hertz: wanted, moving: 0, beginWith: 1 },
        unknownStiffness,
      );
      if (estimate === null || Math.abs(centsApart(estimate.hertz, wanted)) > reachCents) return { refusal: 'unclear' };
      return { hertz: estimate.hertz, sigmaCents: estimate.sigmaCents };
    }),
  );
};
