import { createStore } from 'zustand/vanilla';
import {
  createMicrophone,
  createRecordingSource,
  createSpeaker,
  landingCue,
  type Listening,
  type ListeningSnapshot,
  referenceStrum,
  referenceTone,
  type Sound,
  type SoundSource,
  startListening,
} from '../audio/index.ts';
import type { Hint, PitchEvent } from '#shared/pitch/index.ts';

export type { ListeningSnapshot, SoundStateKind } from '../audio/index.ts';

type Session = {
  readonly listening: Listening | null;
  readonly snapshot: ListeningSnapshot | null;
  /** Peak of the channel in use, in dB of full scale; null before anything was heard. */
  readonly levelDecibels: number | null;
};

const idle: Session = { listening: null, snapshot: null, levelDecibels: null };

/** The live session: one listening for the whole app. */
export const session = createStore<Session>(() => idle);

const pitchListeners = new Set<(event: PitchEvent) => void>();
const speaker = createSpeaker();
/** Where sound comes from: a recording at an address of our own, one that the player brought, strings on the screen, or an input by its label (null = the system's choice). */
export type SoundChoice =
  | { readonly source: SoundSource }
  | { readonly recording: string }
  | { readonly label: string; readonly bytes: Uint8Array }
  | { readonly inputLabel: string | null; readonly channel: number };

/** Starts to listen. Does nothing while it listens already. Throws what fetching a recording throws. */
export async function listen(choice: SoundChoice, hint: Hint): Promise<void> {
  const source = await openSource(choice);
  if (session.getState().listening !== null) return;
  const listening = startListening(source, { hint, channel: 'channel' in choice ? choice.channel : 0 });
  listening.onSnapshot((snapshot) => session.setState({ snapshot }));
  // The session's clock starts near 0; plans and logs are on the epoch's.
  const epochSeconds = Date.now() / 1000 - listening.nowSeconds();
  listening.onPitch((event) => {
    for (const listener of pitchListeners) listener({ ...event, atSeconds: epochSeconds + event.atSeconds });
  });
  listening.onLevel((level) => session.setState({ levelDecibels: level.peaksDecibels[listening.snapshot().channel] ?? null }));
  session.setState({ ...idle, listening, snapshot: listening.snapshot() });
}

async function openSource(choice: SoundChoice): Promise<SoundSource> {
  if ('source' in choice) return choice.source;
  if ('inputLabel' in choice)
    return createMicrophone({ choice: choice.inputLabel === null ? null : { deviceId: '', label: choice.inputLabel } });
  if ('bytes' in choice) return createRecordingSource(choice);
  const answer = await fetch(choice.recording);
  if (!answer.ok) throw new Error(`The recording ${choice.recording} is not there.`);
  return createRecordingSource({ label: 'a recording', bytes: new Uint8Array(await answer.arrayBuffer()) });
}

/** Stops listening and lets go of the device. */
export function stopListening(): void {
  session.getState().listening?.stop();
  session.setState(idle);
}

/** Calls `listener` for every pitch event, its time in seconds of the epoch; returns its own unsubscriber. */
export function onPitch(listener: (event: PitchEvent) => void): () => void {
  pitchListeners.add(listener);
  return () => pitchListeners.delete(listener);
}

/** Reads nothing from the microphone for so many seconds from now on, because something of ours sounds. */
export const holdMicrophone = (seconds: number): void => session.getState().listening?.gate(seconds);

/** Plays a sound of ours; nothing is read from the microphone meanwhile. */
function play(sound: Sound): void {
  holdMicrophone(speaker.play(sound));
}

/** Sounds the wanted pitch of one string, in hertz. */
export const hearPitch = (hertz: number): void => play(referenceTone(hertz));

/** Sounds the strings of a tuning one after the other, in hertz. */
export const hearStrum = (hertz: readonly number[]): void => play(referenceStrum(hertz));

/** The sound that says that a course has landed. */
export const cueLanded = (): void => play(landingCue);
