import { isNewPluck, pluckedOf } from '#shared/matching/index.ts';
import { centsBetween, hertz } from '#shared/units/index.ts';
import type { CoachState, Sound } from './state.ts';

/** A live pitch, as far as its beginning goes. */
export type Frame = {
  readonly atSeconds: number;
  readonly hertz: number;
  readonly steady: boolean;
  readonly sincePluckSeconds?: number | null;
};

/** The sound as of this frame, taken for this string. */
export const soundOf = (frame: Frame, { course, string }: { readonly course: number; readonly string: number }): Sound => ({
  course,
  string,
  hertz: frame.hertz,
  ...pluckedOf(frame),
});

/** Within one sound a peg takes the pitch no further than this from one frame to the next, in cents. */
const strideCents = 60;

/** Whether a frame goes on with a sound, or is of another pluck. */
export function isSameSound(sound: Sound, frame: Frame): boolean {
  return Math.abs(centsBetween(hertz(frame.hertz), hertz(sound.hertz))) <= strideCents && !isNewPluck(sound, frame);
}

/** Whether a frame is of what still rings from the last strum. */
export const isOfStrum = ({ strummed }: CoachState, frame: Frame): boolean =>
  strummed !== null && !isNewPluck({ atSeconds: strummed.atSeconds, pluckedAtSeconds: null }, frame);

/** For so long after a pluck what rang before may be what is heard, in seconds; and by so much its pitch may seem off, in cents. */
const overSeconds = 0.1;
const overCents = 5;

/** Whether a frame, though of a new pluck, is of what rang before it, a strum or a string: the next one is not heard over that at once. */
export function ringsOver({ sound, doubt, strummed }: CoachState, frame: Frame): boolean {
  if ((frame.sincePluckSeconds ?? overSeconds) >= overSeconds) return false;
  return (sound === null && strummed !== null) || rangBefore(sound, frame) || rangBefore(doubt?.sound ?? null, frame);
}

/** Whether the very pitch of a frame was sounding already when its pluck was heard. */
function rangBefore(before: Sound | null, { atSeconds, hertz: heard, sincePluckSeconds = null }: Frame): boolean {
  if (before === null || sincePluckSeconds === null) return false;
  const isSamePitch = Math.abs(centsBetween(hertz(heard), hertz(before.hertz))) <= overCents;
  return isSamePitch && Math.abs(atSeconds - sincePluckSeconds - before.atSeconds) < overSeconds;
}

/** Whether a frame is of another course that was believed to sound last, and rings on under the plucks since. */
export function isRingOfAnother({ sound, doubt }: CoachState, frame: Frame, course: number): boolean {
  if (sound === null || sound.course === course || Math.abs(centsBetween(hertz(frame.hertz), hertz(sound.hertz))) > overCents) return false;
  return rangBefore(sound, frame) || rangBefore(doubt?.sound ?? null, frame);
}
