import { matchFrame, type Strings } from '#shared/matching/index.ts';

/** A live pitch, as the tracker gives it. */
type Frame = {
  readonly atSeconds: number;
  readonly hertz: number;
  readonly sigmaCents: number;
  readonly steady: boolean;
  readonly sincePluckSeconds: number | null;
};

/** One trusted measurement of one string from one pluck. */
export type PluckReading = {
  readonly course: number;
  readonly string: number;
  readonly atSeconds: number;
  readonly hertz: number;
  readonly sigmaCents: number;
};

/** The pluck that sounds: since when it stands still, and its frames as sums weighted by 1/σ². */
type Pluck = {
  readonly course: number;
  readonly string: number;
  readonly sincePluckSeconds: number | null;
  readonly steadyFromSeconds: number;
  readonly weight: number;
  readonly weightedHertz: number;
  readonly leastSigmaCents: number;
  readonly isRead: boolean;
};

/** An instrument being checked: where its strings are and are wanted, per course and string, in hertz. */
export type Check = { readonly present: Strings; readonly wanted: Strings; readonly pluck: Pluck | null };

/** A pluck is read once it has stood still for this long, in seconds; long enough for the glide of a hard pluck to have died (own choice). */
const leastSteadySeconds = 0.45;

/** Begins a check. */
export const startCheck = (present: Strings, wanted: Strings): Check => ({ present, wanted, pluck: null });

/**
 * Takes one frame. Gives a reading once a pluck, when its pitch has stood still for long enough; frames that belong to no course, or could belong to
 * several, are passed over.
 */
export function hearPluck(check: Check, frame: Frame): { readonly check: Check; readonly reading: PluckReading | null } {
  const match = matchFrame(frame.hertz, { present: check.present, wanted: check.wanted, asked: null });
  if (!frame.steady || match.kind === 'unknown') return { check, reading: null };
  const { course, string } = match;
  const before = check.pluck;
  const isSame = before !== null && before.course === course && before.string === string && !isNewPluck(before, frame);
  const weight = 1 / Math.max(frame.sigmaCents, 0.01) ** 2;
  const pluck: Pluck = {
    course,
    string,
    sincePluckSeconds: frame.sincePluckSeconds,
    steadyFromSeconds: isSame ? before.steadyFromSeconds : frame.atSeconds,
    weight: (isSame ? before.weight : 0) + weight,
    weightedHertz: (isSame ? before.weightedHertz : 0) + weight * frame.hertz,
    leastSigmaCents: Math.min(isSame ? before.leastSigmaCents : Number.POSITIVE_INFINITY, frame.sigmaCents),
    isRead: isSame && before.isRead,
  };
  if (pluck.isRead || frame.atSeconds - pluck.steadyFromSeconds < leastSteadySeconds) return { check: { ...check, pluck }, reading: null };
  // Frames overlap: their mean is not surer than the surest of them.
  const reading = {
    course,
    string,
    atSeconds: frame.atSeconds,
    hertz: pluck.weightedHertz / pluck.weight,
    sigmaCents: pluck.leastSigmaCents,
  };
  return { check: { ...check, pluck: { ...pluck, isRead: true } }, reading };
}

/** The tracker counts from each pluck anew. */
const isNewPluck = (before: Pluck, { sincePluckSeconds }: Frame): boolean =>
  sincePluckSeconds !== null && before.sincePluckSeconds !== null && sincePluckSeconds < before.sincePluckSeconds;
