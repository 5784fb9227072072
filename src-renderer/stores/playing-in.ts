import { createStore } from 'zustand/vanilla';
import { hertz } from '#shared/units/index.ts';
import type { PitchEvent } from '#shared/pitch/index.ts';
import { forgetLast, hearPlayed, type Played, startPlayed, takeRepeated } from './played.ts';
import { cueLanded, listen, onPitch, type SoundChoice, stopListening } from './session.ts';

/** The tuning that is being played in, or null. */
export const playingIn = createStore<{ readonly now: Played | null }>(() => ({ now: null }));

let leave: (() => void) | null = null;

type Begin = {
  /** The open pitches that the instrument is at home in, in hertz: they may sound, others too. */
  readonly home: readonly (readonly number[])[];
  readonly sound: SoundChoice;
  readonly hasCues: boolean;
};

/** Begins to listen to open courses, one after the other from the player's eye. Rejects where nothing can be heard. */
export async function beginPlayingIn({ home, sound, hasCues }: Begin): Promise<void> {
  endPlayingIn();
  playingIn.setState({ now: startPlayed(home.length) });
  leave = onPitch((event) => take(event, hasCues));
  await listen(sound, { hertz: home.flat().map(hertz), asked: null });
}

/** Stops listening; what was heard is forgotten. */
export function endPlayingIn(): void {
  if (playingIn.getState().now === null) return;
  leave?.();
  leave = null;
  stopListening();
  playingIn.setState({ now: null });
}

/** The course that sounded like the one before it is the next one. */
export const takeSame = (): void => change(takeRepeated);

/** The last course once more. */
export const playAgain = (): void => change(forgetLast);

function change(step: (played: Played) => Played): void {
  const { now } = playingIn.getState();
  if (now !== null) playingIn.setState({ now: step(now) });
}

function take(event: PitchEvent, hasCues: boolean): void {
  const { now } = playingIn.getState();
  if (now === null || event.kind === 'refusal') return;
  const next = hearPlayed(now, event);
  playingIn.setState({ now: next });
  if (hasCues && next.heard.length > now.heard.length) cueLanded();
}
