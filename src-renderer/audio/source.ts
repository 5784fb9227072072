/**
 * What a source of sound is doing. `open` is the only one in which strings can be heard.
 * denied = by the player or the browser; blocked = by the operating system; lost = the device that was in use or asked for is gone;
 * asleep = the audio context waits for a key or a click; silent = allowed, yet nothing but exact zeros for three seconds; ended = recordings only.
 */
export type SoundStateKind =
  | 'closed'
  | 'asking'
  | 'open'
  | 'denied'
  | 'blocked'
  | 'no-device'
  | 'busy'
  | 'lost'
  | 'asleep'
  | 'muted'
  | 'silent'
  | 'ended'
  | 'failed';

/** A state with a plain sentence for the player, and what its one button does: `retry()`, or choosing another input; null where waiting is all. */
export type SoundState = { readonly kind: SoundStateKind; readonly sentence: string; readonly remedy: 'retry' | 'choose-input' | null };

/** Sound processing that spoils pitch and level; asked to be off, and read back. */
export type Processing = 'echo cancellation' | 'noise suppression' | 'gain control' | 'voice isolation';

/** What is known of an input once it is open. */
export type InputFacts = {
  readonly label: string;
  /** Null for a recording. */
  readonly deviceId: string | null;
  readonly sampleRateHertz: number;
  readonly channelCount: number;
  /** Processing that the system left on though it was asked not to. */
  readonly processing: readonly Processing[];
  /** Sentences about what spoils this input; empty where nothing does. */
  readonly advice: readonly string[];
};

/** Sound that flows: a node of a context. Whoever closes it is the source. */
export type OpenSound = { readonly context: AudioContext; readonly node: AudioNode; readonly input: InputFacts };

/** What a source tells. `opened` may come again after `closed` (device back, second try); a recording starts to play once `opened` has resolved. */
export type SourceListener = {
  readonly changed: (state: SoundState) => void;
  readonly opened: (sound: OpenSound) => Promise<void>;
  readonly closed: () => void;
};

/** A source of sound: start once, retry as often as needed (from a key or a click), stop for good. `start` and `retry` resolve once the attempt has ended, either way. */
export type SoundSource = {
  readonly kind: 'microphone' | 'recording' | 'virtual';
  readonly label: string;
  readonly start: (listener: SourceListener) => Promise<void>;
  readonly retry: () => Promise<void>;
  readonly stop: () => void;
};
