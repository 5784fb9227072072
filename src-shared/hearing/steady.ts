import { type Plucked, pluckedOf } from '#shared/matching/index.ts';

/** A live pitch, as the tracker gives it. */
export type Frame = {
  readonly atSeconds: number;
  readonly hertz: number;
  readonly sigmaCents: number;
  readonly steady: boolean;
  readonly sincePluckSeconds: number | null;
};

/** A pitch with its standard error. */
export type HeardPitch = { readonly hertz: number; readonly sigmaCents: number };

/** The pluck that sounds: since when it stands still, and its frames as sums weighted by 1/σ². */
export type Steady = Plucked & {
  readonly fromSeconds: number;
  readonly weight: number;
  readonly weightedHertz: number;
  readonly leastSigmaCents: number;
  readonly isRead: boolean;
};

/** A pluck is read once it has stood still for this long, in seconds; long enough for the glide of a hard pluck to have died (own choice). */
const leastSteadySeconds = 0.45;

/** The pluck after one more steady frame; `before` null = it begins here. Gives its pitch once, when it has stood still for long enough. */
export function hearSteady(before: Steady | null, frame: Frame): { readonly pluck: Steady; readonly pitch: HeardPitch | null } {
  const weight = 1 / Math.max(frame.sigmaCents, 0.01) ** 2;
  const pluck: Steady = {
    ...pluckedOf(frame),
    fromSeconds: before?.fromSeconds ?? frame.atSeconds,
    weight: (before?.weight ?? 0) + weight,
    weightedHertz: (before?.weightedHertz ?? 0) + weight * frame.hertz,
    leastSigmaCents: Math.min(before?.leastSigmaCents ?? Number.POSITIVE_INFINITY, frame.sigmaCents),
    isRead: before?.isRead ?? false,
  };
  if (pluck.isRead || frame.atSeconds - pluck.fromSeconds < leastSteadySeconds) return { pluck, pitch: null };
  // Frames overlap: their mean is not surer than the surest of them.
  return { pluck: { ...pluck, isRead: true }, pitch: { hertz: pluck.weightedHertz / pluck.weight, sigmaCents: pluck.leastSigmaCents } };
}
