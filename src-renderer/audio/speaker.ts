/** A short sound: builds its nodes onto `output`, to begin at `atSeconds` on the context's clock; returns for how long it sounds, in seconds. */
export type Sound = (context: BaseAudioContext, output: AudioNode, atSeconds: number) => number;

/** What our own sounds go through. One for the whole program; its context is made with the first sound. */
export type Speaker = {
  /** Plays a sound instead of the one that may still sound; returns for how long it will be heard from now on, in seconds, for `listening.gate`. */
  readonly play: (sound: Sound) => number;
  /** Breaks off what sounds. */
  readonly hush: () => void;
  /** 0…1; 0 plays nothing, and `play` then returns 0. Throws RangeError outside. */
  readonly setVolume: (volume: number) => void;
  readonly close: () => Promise<void>;
};

/** Fade of a sound that is broken off: short, and long enough not to click. */
const hushSeconds = 0.02;
const leadSeconds = 0.01;

/** Opens the way out. `const speaker = createSpeaker(); listening.gate(speaker.play(landingCue))`. */
export const createSpeaker = (createContext: () => AudioContext = () => new AudioContext({ latencyHint: 'interactive' })): Speaker => {
  let context: AudioContext | null = null;
  let sounding: GainNode | null = null;
  let volume = 1;

  const hush = () => {
    if (!context || !sounding) return;
    const last = sounding;
    sounding = null;
    last.gain.setTargetAtTime(0, context.currentTime, hushSeconds / 4);
    setTimeout(() => last.disconnect(), hushSeconds * 2000);
  };

  return {
    play: (sound) => {
      hush();
      if (volume === 0) return 0;
      context ??= createContext();
      // A context may be asleep until a key or a click; if it can't wake, the sound is simply not heard.
      if (context.state !== 'running') context.resume().catch(() => {});
      sounding = new GainNode(context, { gain: volume });
      sounding.connect(context.destination);
      return leadSeconds + sound(context, sounding, context.currentTime + leadSeconds) + context.baseLatency + context.outputLatency;
    },
    hush,
    setVolume: (newVolume) => {
      if (!(newVolume >= 0 && newVolume <= 1)) throw new RangeError(`volume must be 0…1; got ${newVolume}`);
      volume = newVolume;
    },
    close: async () => {
      hush();
      await context?.close();
      context = null;
    },
  };
};
