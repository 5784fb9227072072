import type { AudioWorld } from './audio-context.ts';
import { openContext, watchSleep } from './audio-context.ts';
import type { InputChoice } from './devices.ts';
import { findInput, listInputs } from './devices.ts';
import { inputFacts, rawSound } from './input-facts.ts';
import type { MicrophoneFacts, Refusal } from './microphone-state.ts';
import { microphoneState, refusalOf, unopened } from './microphone-state.ts';
import type { SoundSource, SourceListener } from './source.ts';

/** What a microphone needs besides: devices, and a timer that returns how to cancel it. */
export type MicrophoneWorld = AudioWorld & {
  readonly devices: MediaDevices | undefined;
  readonly after: (seconds: number, action: () => void) => () => void;
};

const browser = (): MicrophoneWorld => ({
  devices: navigator.mediaDevices,
  page: window,
  openContext,
  after: (seconds, action) => {
    const timer = setTimeout(action, seconds * 1000);
    return () => clearTimeout(timer);
  },
});

/** A device that ended while it is still listed (the computer slept, a driver restarted) is tried again after these waits; then only when a device comes. */
const waitsSeconds = [0.5, 1, 2, 4, 8] as const;
const steadySeconds = 10;

/**
 * A microphone or other input as a source of sound: raw (no processing asked for, what was left on is told), at its own sample rate.
 * `choice` null takes the system's. A lost device is named, and listening goes on by itself when it is back, also under a new id.
 * `startListening(createMicrophone({ choice: null }))`.
 */
export const createMicrophone = (
  { choice = null }: { choice?: InputChoice | null } = {},
  world: MicrophoneWorld = browser(),
): SoundSource => {
  const { devices } = world;
  let listener: SourceListener | null = null;
  let facts: MicrophoneFacts = { ...unopened, label: choice?.label ?? null };
  let wanted = choice;
  let attempt = 0;
  let waits = 0;
  let context: AudioContext | null = null;
  let release: (() => void) | null = null;
  let cancelWait: (() => void) | null = null;

  const change = (changes: Partial<MicrophoneFacts>) => {
    facts = { ...facts, ...changes };
    listener?.changed(microphoneState(facts));
  };

  /** Lets go of the device, if one is open. */
  const close = () => {
    attempt += 1;
    cancelWait?.();
    release?.();
    release = null;
    context = null;
  };

  const refuse = (refusal: Refusal) => {
    close();
    change({ phase: refusal, muted: false, asleep: false });
    if (refusal === 'lost') awaitReturn();
  };

  const awaitReturn = () => {
    const seconds = waitsSeconds[waits];
    if (seconds === undefined) return;
    waits += 1;
    cancelWait = world.after(seconds, () => void openIfPresent().then((opened) => opened || awaitReturn()));
  };

  const open = async (): Promise<void> => {
    close();
    const mine = attempt;
    change({ phase: 'asking', muted: false, asleep: false });
    if (!devices) return refuse('failed');
    try {
      const found = wanted && findInput(await listInputs(devices), wanted);
      const stream = await devices.getUserMedia({ audio: rawSound(found?.deviceId ?? wanted?.deviceId ?? null) });
      if (mine === attempt) await take(stream, mine);
      else stopTracks(stream);
    } catch (error) {
      if (mine === attempt) refuse(refusalOf(error));
    }
  };

  const take = async (stream: MediaStream, mine: number) => {
    release = () => stopTracks(stream);
    const track = stream.getAudioTracks()[0];
    if (!track) return refuse('no-device');
    const settings = track.getSettings();
    const opened = world.openContext(settings.sampleRate ?? null);
    const input = inputFacts(track.label || 'Microphone', settings, opened.sampleRate);
    /** A device set to another rate meanwhile: a context at the old one would have it resampled, or hear nothing. */
    const hasNewRate = () => track.getSettings().sampleRate !== settings.sampleRate;
    const onConfiguration = () => void (hasNewRate() && open());
    let unwatch: (() => void) | null = null;
    const onEnded = () => refuse('lost');
    const onMute = () => change({ muted: track.muted });
    release = () => {
      unwatch?.();
      track.removeEventListener('ended', onEnded);
      track.removeEventListener('configurationchange', onConfiguration);
      devices?.removeEventListener('devicechange', onConfiguration);
      opened.removeEventListener('error', onEnded);
      track.removeEventListener('mute', onMute);
      track.removeEventListener('unmute', onMute);
      stopTracks(stream);
      // The context is ours and nobody else holds it: a failure to close has nobody to be told to.
      opened.close().catch(() => {});
      listener?.closed();
    };
    context = opened;
    if (input.deviceId) wanted = { deviceId: input.deviceId, label: input.label };
    track.addEventListener('ended', onEnded);
    // Media Capture and Streams Extensions; where a browser lacks it, the devices are said to have changed, or the track ends.
    track.addEventListener('configurationchange', onConfiguration);
    devices?.addEventListener('devicechange', onConfiguration);
    // An audio engine that breaks down takes its device along; both come back the same way.
    opened.addEventListener('error', onEnded);
    track.addEventListener('mute', onMute);
    track.addEventListener('unmute', onMute);
    await listener?.opened({ context: opened, node: opened.createMediaStreamSource(stream), input });
    if (mine !== attempt) return;
    facts = { ...facts, phase: 'open', label: input.label, muted: track.muted };
    // An input that has stayed open has earned a fresh round of waits.
    cancelWait = world.after(steadySeconds, () => (waits = 0));
    unwatch = watchSleep(opened, (asleep) => change({ asleep }), world.page);
  };

  /** Opens again if the device that is waited for is listed; false when it goes on being waited for. */
  const openIfPresent = async (): Promise<boolean> => {
    const mine = attempt;
    const inputs = await listInputs(devices);
    const waiting = mine === attempt && (facts.phase === 'lost' || facts.phase === 'no-device');
    if (!waiting) return true;
    const present = facts.phase === 'lost' && wanted ? findInput(inputs, wanted) !== null : inputs.length > 0;
    if (present) await open();
    return present;
  };
  const onDeviceChange = () => {
    waits = 0;
    void openIfPresent();
  };

  return {
    kind: 'microphone',
    label: choice?.label ?? 'Microphone',
    start: async (newListener) => {
      listener = newListener;
      devices?.addEventListener('devicechange', onDeviceChange);
      await open();
    },
    retry: async () => {
      waits = 0;
      if (context && facts.asleep) await context.resume();
      else await open();
    },
    stop: () => {
      devices?.removeEventListener('devicechange', onDeviceChange);
      close();
      change({ phase: 'closed', muted: false, asleep: false });
      listener = null;
    },
  };
};

const stopTracks = (stream: MediaStream) => {
  for (const track of stream.getTracks()) track.stop();
};
