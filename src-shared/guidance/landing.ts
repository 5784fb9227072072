import { atCents, cents, centsBetween, hertz } from '#shared/units/index.ts';

/** How long the pitch has to lie inside tolerance before a string counts as landed, in seconds. */
const landingSeconds = 0.6;
/** Two frames further apart than this do not belong to one sounding of the string. */
const longestGapSeconds = 0.2;
/** The pitch is told from the frames of this long. */
const windowSeconds = 0.3;
/** Frames overlap: one in so many seconds tells something of its own (from the length of what a frame listens to). */
const freshSeconds = 0.15;
/** Half-width of a 95 % interval, in sigmas. */
export const ninetyFive = 1.96;
/** A frame this many sigmas, and a cent, from the pitch so far is doubted; two in a row are a turn of the peg. */
const doubtSigmas = 4;
const doubtCents = 1;

export type Frame = { readonly atSeconds: number; readonly hertz: number; readonly sigmaCents: number; readonly steady: boolean };

/** A pitch with its sigma in cents. */
export type Pitch = { readonly hertz: number; readonly sigmaCents: number };

/** The latest sounding of a string: its frames, those that tell its pitch now, and since when that has lain inside tolerance. */
export type Sounding = {
  readonly frames: readonly Frame[];
  /** Since when the pitch has stood still, give or take its sigma. */
  readonly stillSinceSeconds: number;
  readonly pitch: Pitch;
  readonly insideSinceSeconds: number | null;
};

/** A string that has not sounded in this visit. */
export const unheard = { sounding: null, inside: { seconds: 0 } } as const;

/** The sounding after one more frame; the whole 95 % interval of the pitch must lie within tolerance of the aim to count as inside. */
export function extend(sounding: Sounding | null, frame: Frame, aimHertz: number, toleranceCents: number): Sounding {
  const last = sounding?.frames.at(-1);
  const isNew = sounding === null || last === undefined || frame.atSeconds - last.atSeconds > longestGapSeconds;
  const kept = isNew ? [] : sounding.frames.filter(({ atSeconds }) => atSeconds > frame.atSeconds - windowSeconds - landingSeconds);
  const hasTurned = !isNew && last !== undefined && isDoubtful(sounding.pitch, last) && isDoubtful(sounding.pitch, frame);
  const frames = [...kept, frame];
  const stillSinceSeconds = isNew ? frame.atSeconds : hasTurned ? last.atSeconds : sounding.stillSinceSeconds;
  const from = Math.max(stillSinceSeconds, frame.atSeconds - windowSeconds);
  const pitch = pitchOf(frames.filter(({ atSeconds }) => atSeconds >= from));
  const isInside = Math.abs(centsBetween(hertz(pitch.hertz), hertz(aimHertz))) + ninetyFive * pitch.sigmaCents <= toleranceCents;
  const since = isNew || hasTurned ? null : sounding.insideSinceSeconds;
  return { frames, stillSinceSeconds, pitch, insideSinceSeconds: isInside ? (since ?? frame.atSeconds) : null };
}

const isDoubtful = (pitch: Pitch, frame: Frame): boolean =>
  Math.abs(centsBetween(hertz(frame.hertz), hertz(pitch.hertz))) > doubtCents + doubtSigmas * Math.max(frame.sigmaCents, pitch.sigmaCents);

/** For how long the string has lain inside, in seconds; 0 where it does not. */
export const secondsInside = ({ frames, insideSinceSeconds }: Sounding): number =>
  insideSinceSeconds === null ? 0 : (frames.at(-1)?.atSeconds ?? insideSinceSeconds) - insideSinceSeconds;

/** Whether the string has lain inside for long enough. */
export const hasLanded = (sounding: Sounding): boolean => secondsInside(sounding) >= landingSeconds - 1e-9;

/** What was reached: told from the frames inside tolerance; once the pitch has stopped gliding, only from those. */
export function reachedBy({ frames, insideSinceSeconds, pitch }: Sounding): Pitch {
  const inside = frames.filter(({ atSeconds }) => atSeconds >= (insideSinceSeconds ?? Number.POSITIVE_INFINITY));
  const steady = inside.filter((frame) => frame.steady);
  if (inside.length === 0) return pitch;
  const told = steady.length > 0 ? steady : inside;
  // What errs alike in all its frames does not average out: a reading is no surer than its frames.
  return { hertz: pitchOf(told).hertz, sigmaCents: spreadOf(told) };
}

/** The pitch of frames of one standing: their median, with a sigma no better than what they claim nor than how they scatter. */
function pitchOf(frames: readonly Frame[]): Pitch {
  const [first] = frames;
  if (first === undefined) throw new RangeError('a pitch is told from at least one frame');
  const middle = median(offsetsFrom(first, frames));
  const span = (frames.at(-1)?.atSeconds ?? first.atSeconds) - first.atSeconds;
  const alone = Math.min(frames.length, 1 + span / freshSeconds);
  return { hertz: atCents(hertz(first.hertz), cents(middle)), sigmaCents: spreadOf(frames) / Math.sqrt(alone) };
}

const offsetsFrom = (first: Frame, frames: readonly Frame[]): readonly number[] =>
  frames.map((frame) => centsBetween(hertz(frame.hertz), hertz(first.hertz)));

/** The sigma of one frame of a standing: what they claim, or how they scatter if that is more. */
function spreadOf(frames: readonly Frame[]): number {
  const claimed = median(frames.map(({ sigmaCents }) => sigmaCents));
  const [first] = frames;
  if (first === undefined || frames.length < fewestForScatter) return claimed;
  const offsets = offsetsFrom(first, frames);
  const middle = median(offsets);
  return Math.max(claimed, 1.4826 * median(offsets.map((offset) => Math.abs(offset - middle))));
}

const fewestForScatter = 4;

function median(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const middle = sorted.length / 2;
  return sorted.length % 2 === 1 ? (sorted[Math.floor(middle)] ?? 0) : ((sorted[middle - 1] ?? 0) + (sorted[middle] ?? 0)) / 2;
}
