import { centsBetween, hertz } from '#shared/units/index.ts';
import type { StringState, Stretch } from './state.ts';

/** How long a string has to sound inside its tolerance before it counts as landed, in seconds. */
export const landingSeconds = 0.6;
/** Two frames further apart than this do not add to the time inside: nothing sounded in between. */
const longestGapSeconds = 0.2;
/** Half-width of a 95 % interval, in sigmas. */
const ninetyFive = 1.96;

export const emptyStretch: Stretch = { seconds: 0, lastAtSeconds: null, weight: 0, weightedCents: 0 };

/**
 * Adds a frame to the stretch inside tolerance, or ends the stretch: the whole 95 % interval of the pitch must lie within tolerance of the aim.
 */
export function extend(
  state: StringState,
  frame: { atSeconds: number; hertz: number; sigmaCents: number },
  toleranceCents: number,
): Stretch {
  const fromAim = centsBetween(hertz(frame.hertz), hertz(state.aimHertz));
  if (Math.abs(fromAim) + ninetyFive * frame.sigmaCents > toleranceCents) return emptyStretch;
  const { inside } = state;
  const gap = inside.lastAtSeconds === null ? 0 : frame.atSeconds - inside.lastAtSeconds;
  const weight = 1 / Math.max(frame.sigmaCents, 0.01) ** 2;
  return {
    seconds: inside.seconds + (gap > longestGapSeconds ? 0 : gap),
    lastAtSeconds: frame.atSeconds,
    weight: inside.weight + weight,
    weightedCents: inside.weightedCents + weight * fromAim,
  };
}

/** Mean of the frames inside, in cents from the aim. */
export const meanCents = (stretch: Stretch): number => stretch.weightedCents / stretch.weight;
