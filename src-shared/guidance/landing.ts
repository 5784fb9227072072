import { centsBetween, hertz } from '#shared/units/index.ts';
import type { StringState, Stretch } from './state.ts';

/** How long a string has to sound inside its tolerance before it counts as landed, in seconds. */
export const landingSeconds = 0.6;
/** Two frames further apart than this do not add to the time inside: nothing sounded in between. */
const longestGapSeconds = 0.2;
/** Half-width of a 95 % interval, in sigmas. */
export const ninetyFive = 1.96;

export const emptyStretch: Stretch = { seconds: 0, lastAtSeconds: null, isSteady: false, weight: 0, weightedCents: 0 };

/**
 * Adds a frame to the stretch inside tolerance, or ends the stretch: the whole 95 % interval of the pitch must lie within tolerance of the aim.
 */
export function extend(
  state: StringState,
  frame: { atSeconds: number; hertz: number; sigmaCents: number; steady: boolean },
  toleranceCents: number,
): Stretch {
  const fromAim = centsBetween(hertz(frame.hertz), hertz(state.aimHertz));
  if (Math.abs(fromAim) + ninetyFive * frame.sigmaCents > toleranceCents) return emptyStretch;
  const { inside } = state;
  const gap = inside.lastAtSeconds === null ? 0 : frame.atSeconds - inside.lastAtSeconds;
  const weight = 1 / Math.max(frame.sigmaCents, 0.01) ** 2;
  // The glide of a hard pluck may lie inside tolerance as well: once the pitch stands still, only that counts towards the mean.
  const keeps = frame.steady === inside.isSteady;
  const joins = keeps || frame.steady;
  return {
    seconds: inside.seconds + (gap > longestGapSeconds ? 0 : gap),
    lastAtSeconds: frame.atSeconds,
    isSteady: inside.isSteady || frame.steady,
    weight: (keeps || !frame.steady ? inside.weight : 0) + (joins ? weight : 0),
    weightedCents: (keeps || !frame.steady ? inside.weightedCents : 0) + (joins ? weight * fromAim : 0),
  };
}

/** Mean of the frames inside, in cents from the aim. */
export const meanCents = (stretch: Stretch): number => stretch.weightedCents / stretch.weight;
