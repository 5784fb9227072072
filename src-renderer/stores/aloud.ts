import { createStore } from 'zustand/vanilla';
import { createVoice } from '../audio/index.ts';
import { holdMicrophone } from './session.ts';

const voice = createVoice();
const remembered = 'stillstring.speaks';

/** What is to be heard of a retune: a knock at each landing, and the next instruction as a sentence. On a stage both are off. */
export const aloud = createStore<{ readonly knocks: boolean; readonly speaks: boolean; readonly canSpeak: boolean }>(() => ({
  knocks: true,
  speaks: localStorage.getItem(remembered) === 'on',
  canSpeak: voice.isAvailable(),
}));
// Browsers name their voices late. The voice lives as long as the app, so nobody unsubscribes.
voice.onAvailable((canSpeak) => aloud.setState({ canSpeak }));

/** Whether instructions are spoken; remembered on this computer. */
export function speakAloud(speaks: boolean): void {
  localStorage.setItem(remembered, speaks ? 'on' : 'off');
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
