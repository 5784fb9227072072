import { createSignal, type Unsubscribe } from './signal.ts';

/** What we need of the browser's speech; tests bring their own. */
export type SpeechWorld = {
  readonly synthesis: SpeechSynthesis | null;
  readonly utterance: (text: string) => SpeechSynthesisUtterance;
};

/** A voice that says sentences aloud. */
export type Voice = {
  /** Whether there is an English voice on this computer. One that speaks over the network is not used: nothing leaves the computer. */
  readonly isAvailable: () => boolean;
  readonly onAvailable: (listener: (isAvailable: boolean) => void) => Unsubscribe;
  /**
   * Says a sentence instead of the one that may still be said. While it is said `hold` is called again and again with a number of seconds for
   * which nothing should be read from the microphone: how long a voice takes is not known beforehand.
   */
  readonly say: (sentence: string, hold: (seconds: number) => void) => void;
  readonly hush: () => void;
};

/** How often the microphone is held closed while a voice speaks, and for how long each time. */
const holdEveryMilliseconds = 200;
const holdSeconds = 0.4;
/** A voice that has not ended by then has failed without saying so. */
const longestMilliseconds = 12_000;

const world: SpeechWorld = {
  synthesis: typeof speechSynthesis === 'undefined' ? null : speechSynthesis,
  utterance: (text) => new SpeechSynthesisUtterance(text),
};

/** Opens the voice (Web Speech API, W3C community report). `createVoice().say('Course 2: loosen.', listening.gate)`. */
export const createVoice = ({ synthesis, utterance }: SpeechWorld = world): Voice => {
  const availability = createSignal<boolean>();
  let end: (() => void) | null = null;
  const english = () => synthesis?.getVoices().find(({ lang, localService }) => localService && /^en\b/iu.test(lang)) ?? null;
  const hush = () => {
    end?.();
    synthesis?.cancel();
  };
  synthesis?.addEventListener('voiceschanged', () => availability.emit(english() !== null));

  return {
    isAvailable: () => english() !== null,
    onAvailable: availability.subscribe,
    say: (sentence, hold) => {
      const voice = english();
      if (synthesis === null || voice === null) return;
      hush();
      const words = utterance(sentence);
      words.voice = voice;
      words.lang = voice.lang;
      const timer = setInterval(() => hold(holdSeconds), holdEveryMilliseconds);
      const stop = () => {
        clearInterval(timer);
        clearTimeout(longest);
        if (end === stop) end = null;
      };
      const longest = setTimeout(stop, longestMilliseconds);
      words.addEventListener('end', stop);
      words.addEventListener('error', stop);
      end = stop;
      hold(holdSeconds);
      synthesis.speak(words);
    },
    hush,
  };
};
