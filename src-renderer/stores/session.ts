import { createStore } from 'zustand/vanilla';
import {
  createMicrophone,
  createRecordingSource,
  createSpeaker,
  landingCue,
  type Level,
  type Listening,
  type ListeningSnapshot,
  referenceStrum,
  referenceTone,
  type Sound,
  startListening,
} from '../audio/index.ts';
import type { Hint, PitchEvent } from '#shared/pitch/index.ts';

/** How the input does, in the words of the top line. */
export type Hearing = 'not listening' | 'hearing you' | 'quiet' | 'too quiet' | 'too loud';

type Session = {
  readonly listening: Listening | null;
  readonly snapshot: ListeningSnapshot | null;
  readonly hearing: Hearing;
  /** Peak of the channel in use, in dB of full scale; null before anything was heard. */
  readonly levelDecibels: number | null;
};

const idle: Session = { listening: null, snapshot: null, hearing: 'not listening', levelDecibels: null };

/** The live session: one listening for the whole app. */
export const session = createStore<Session>(() => idle);

const pitchListeners = new Set<(event: PitchEvent) => void>();
const speaker = createSpeaker();
/** Below this a pluck is too faint to be read well; −60 dB of full scale is a whisper of a string on a built-in microphone (own choice). */
const tooQuietDecibels = -50;
/** A pluck was heard within this time. */
const recentSeconds = 1.2;

let lastFrameSeconds = Number.NEGATIVE_INFINITY;
let lastTooQuietSeconds = Number.NEGATIVE_INFINITY;

/** Where sound comes from: a recording at an address of our own, or an input by its label (null = the system's choice). */
export type SoundChoice = { readonly recording: string } | { readonly inputLabel: string | null; readonly channel: number };

/** Starts to listen. Does nothing while it listens already. Throws what fetching a recording throws. */
export async function listen(choice: SoundChoice, hint: Hint): Promise<void> {
  const source = await openSource(choice);
  if (session.getState().listening !== null) return;
  const listening = startListening(source, { hint, channel: 'recording' in choice ? 0 : choice.channel });
  listening.onSnapshot((snapshot) => session.setState({ snapshot }));
  listening.onPitch((event) => {
    if (event.kind === 'frame') lastFrameSeconds = event.atSeconds;
    for (const listener of pitchListeners) listener(event);
  });
  listening.onLevel((level) => session.setState(hear(level, session.getState().snapshot?.channel ?? 0)));
  lastFrameSeconds = Number.NEGATIVE_INFINITY;
  lastTooQuietSeconds = Number.NEGATIVE_INFINITY;
  session.setState({ ...idle, listening, snapshot: listening.snapshot(), hearing: 'quiet' });
}

async function openSource(choice: SoundChoice) {
  if (!('recording' in choice))
    return createMicrophone({ choice: choice.inputLabel === null ? null : { deviceId: '', label: choice.inputLabel } });
  const answer = await fetch(choice.recording);
  if (!answer.ok) throw new Error(`The recording ${choice.recording} is not there.`);
  return createRecordingSource({ label: 'a recording', bytes: new Uint8Array(await answer.arrayBuffer()) });
}

function hear(level: Level, channel: number): Partial<Session> {
  const levelDecibels = level.peaksDecibels[channel] ?? null;
  const isSounding = level.atSeconds - lastFrameSeconds < recentSeconds;
  if (!isSounding && levelDecibels !== null && levelDecibels > tooQuietDecibels) lastTooQuietSeconds = level.atSeconds;
  const isFaint = !isSounding && level.atSeconds - lastTooQuietSeconds < recentSeconds;
  const hearing: Hearing = (level.clipped[channel] ?? false) ? 'too loud' : isSounding ? 'hearing you' : isFaint ? 'too quiet' : 'quiet';
  return { levelDecibels, hearing };
}

/** Stops listening and lets go of the device. */
export function stopListening(): void {
  session.getState().listening?.stop();
  session.setState(idle);
}

/** Calls `listener` for every pitch event; returns its own unsubscriber. */
export function onPitch(listener: (event: PitchEvent) => void): () => void {
  pitchListeners.add(listener);
  return () => pitchListeners.delete(listener);
}

/** Plays a sound of ours; nothing is read from the microphone meanwhile. */
function play(sound: Sound): void {
  const seconds = speaker.play(sound);
  session.getState().listening?.gate(seconds);
}

/** Sounds the wanted pitch of one string, in hertz. */
export const hearPitch = (hertz: number): void => play(referenceTone(hertz));

/** Sounds the strings of a tuning one after the other, in hertz. */
export const hearStrum = (hertz: readonly number[]): void => play(referenceStrum(hertz));

/** The sound that says that a course has landed. */
export const cueLanded = (): void => play(landingCue);
