import { createStore } from 'zustand/vanilla';
import { type HeardReference, referenceFrom } from '#shared/hearing/index.ts';
import { isNewPluck, pluckedOf } from '#shared/matching/index.ts';
import type { PitchEvent, PitchFrame } from '#shared/pitch/index.ts';
import { type Midi, midiToHertz, hertz } from '#shared/units/index.ts';
import { listen, onPitch, type SoundChoice, stopListening } from './session.ts';

/** A reference pitch that is being taken from a sounding piano: the note asked for, what sounds, and what it makes of A4. */
export type TakingReference = {
  readonly note: Midi;
  /** The frames of the note that sounds, or sounded last. */
  readonly frames: readonly PitchFrame[];
  /** Null before anything sounded. */
  readonly heard: HeardReference | null;
};

/** The reference that is being taken, or null. */
export const takingReference = createStore<{ readonly now: TakingReference | null }>(() => ({ now: null }));

let leave: (() => void) | null = null;
/** So many frames of a note are enough: its latest three seconds or so. */
const mostFrames = 90;

/** Begins to listen to one note. Rejects where nothing can be heard. */
export async function beginReference(note: Midi, sound: SoundChoice): Promise<void> {
  endReference();
  takingReference.setState({ now: { note, frames: [], heard: null } });
  leave = onPitch((event) => {
    const { now } = takingReference.getState();
    if (now !== null) takingReference.setState({ now: hearReference(now, event) });
  });
  await listen(sound, { hertz: [midiToHertz(note, hertz(440))], asked: 0 });
}

/** Stops listening. */
export function endReference(): void {
  if (takingReference.getState().now === null) return;
  leave?.();
  leave = null;
  stopListening();
  takingReference.setState({ now: null });
}

/** Takes one event: the frames of a note are gathered until the next is struck; what was heard stays when it has died away. */
export function hearReference(now: TakingReference, event: PitchEvent): TakingReference {
  if (event.kind === 'refusal') return now;
  const last = now.frames.at(-1);
  const isNew = last !== undefined && isNewPluck(pluckedOf(last), event);
  const frames = [...(isNew ? [] : now.frames), event].slice(-mostFrames);
  const heard = referenceFrom(frames, now.note);
  // While a note has just begun, what the last one told stays.
  const isTooShort = heard.kind === 'refused' && heard.reason === 'too-short' && now.heard !== null;
  return { ...now, frames, heard: isTooShort ? now.heard : heard };
}
