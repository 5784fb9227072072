import type { SoundState } from './source.ts';

/** Why an input could not be opened. */
export type Refusal = 'denied' | 'blocked' | 'no-device' | 'busy' | 'lost' | 'failed';

/** All that a microphone's state follows from. `label` is null while it is not known which device it will be. */
export type MicrophoneFacts = {
  readonly phase: 'closed' | 'asking' | 'open' | Refusal;
  readonly label: string | null;
  readonly muted: boolean;
  readonly asleep: boolean;
};

/** A microphone that nobody has started. */
export const unopened: MicrophoneFacts = { phase: 'closed', label: null, muted: false, asleep: false };

/**
 * The state that follows from the facts. What keeps sound away first is told first: a context that sleeps before a muted device.
 * `microphoneState({ phase: 'open', label: 'Pickup', muted: true, asleep: false }).kind` → 'muted'.
 */
export const microphoneState = ({ phase, label, muted, asleep }: MicrophoneFacts): SoundState => {
  const name = label ?? 'The microphone';
  switch (phase) {
    case 'closed':
      return { kind: 'closed', sentence: 'Not listening.', remedy: 'retry' };
    case 'asking':
      return { kind: 'asking', sentence: 'Waiting for the microphone. If you are asked whether it may be used, allow it.', remedy: null };
    case 'denied':
      return {
        kind: 'denied',
        sentence: 'The microphone is not allowed here. Allow it in the settings of this page or window, then try again.',
        remedy: 'retry',
      };
    case 'blocked':
      return {
        kind: 'blocked',
        sentence: "The system keeps the microphone from this program. Allow it in the system's privacy settings, then try again.",
        remedy: 'retry',
      };
    case 'no-device':
      return {
        kind: 'no-device',
        sentence: 'There is no microphone or other sound input. Plug one in and listening starts.',
        remedy: 'retry',
      };
    case 'busy':
      return {
        kind: 'busy',
        sentence: `${name} could not be started; another program may be using it. Close that program, then try again.`,
        remedy: 'retry',
      };
    case 'lost':
      return {
        kind: 'lost',
        sentence: `${name} is gone. Plug it in and listening goes on, or choose another input.`,
        remedy: 'choose-input',
      };
    case 'failed':
      return { kind: 'failed', sentence: `${name} could not be opened. Try again, or choose another input.`, remedy: 'choose-input' };
    case 'open':
      if (asleep) return asleepState;
      if (muted)
        return {
          kind: 'muted',
          sentence: `${name} is muted, by a switch on it or by the system. Unmute it and listening goes on.`,
          remedy: 'choose-input',
        };
      return { kind: 'open', sentence: `Listening to ${name}.`, remedy: null };
  }
};

/** Sound in or out that waits for a key or a click; browsers ask for one before anything may sound. */
export const asleepState: SoundState = { kind: 'asleep', sentence: 'Sound is asleep. Press a key or click to wake it.', remedy: 'retry' };

/** An input that is open and sends exact zeros: a muted device, or a permission that only looks granted. */
export const silentState = (label: string): SoundState => ({
  kind: 'silent',
  sentence: `${label} sends nothing, not even noise. Look for a mute switch, another channel, or whether the system lets this program hear it.`,
  remedy: 'choose-input',
});

/**
 * What an error of `getUserMedia` means (Media Capture and Streams, W3C, §10.2; the wording of a system's refusal is Chromium's).
 * `refusalOf(new DOMException('', 'NotFoundError'))` → 'no-device'.
 */
export const refusalOf = (error: unknown): Refusal => {
  const { name, message } = error as { readonly name?: unknown; readonly message?: unknown };
  if (name === 'NotAllowedError') return /by system/i.test(String(message)) ? 'blocked' : 'denied';
  if (name === 'SecurityError') return 'denied';
  if (name === 'NotFoundError') return 'no-device';
  if (name === 'OverconstrainedError') return 'lost';
  if (name === 'NotReadableError' || name === 'AbortError') return 'busy';
  return 'failed';
};
