import { createStore } from 'zustand/vanilla';
import { createVoice } from '../audio/index.ts';
import { holdMicrophone } from './session.ts';

const voice = createVoice();

/** What is to be heard of a retune: a knock at each landing, and the next instruction as a sentence. On a stage both are off. */
export const aloud = createStore<{ readonly knocks: boolean; readonly speaks: boolean; readonly canSpeak: boolean }>(() => ({
  knocks: true,
  speaks: false,
  canSpeak: voice.isAvailable(),
}));
// Browsers name their voices late. The voice lives as long as the app, so nobody unsubscribes.
voice.onAvailable((canSpeak) => aloud.setState({ canSpeak }));

/** Follows what the player set: whether instructions are spoken. */
export function followSpeech(speaks: boolean): void {
  aloud.setState({ speaks });
  if (!speaks) voice.hush();
}

/** Says a sentence, if the player wants that; nothing is read from the microphone meanwhile. */
export function sayAloud(sentence: string): void {
  const { speaks, canSpeak } = aloud.getState();
  if (speaks && canSpeak) voice.say(sentence, holdMicrophone);
}

/** Breaks off what is being said. */
export const hushVoice = (): void => voice.hush();
