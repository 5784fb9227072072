import type { InputFacts, Processing } from './source.ts';

/** `voiceIsolation` is in the Media Capture Extensions draft, not in every browser or type library. `echoCancellation` may come back as a word (its mode). */
export type ReadBackSettings = {
  readonly deviceId?: string;
  readonly sampleRate?: number;
  readonly channelCount?: number;
  readonly echoCancellation?: boolean | string;
  readonly noiseSuppression?: boolean;
  readonly autoGainControl?: boolean;
  readonly voiceIsolation?: boolean;
};

/** What is asked of an input: raw sound, and two channels where it has them, so that the second socket of an interface can be chosen. */
export const rawSound = (deviceId: string | null): MediaTrackConstraints & { readonly voiceIsolation: boolean } => ({
  echoCancellation: false,
  noiseSuppression: false,
  autoGainControl: false,
  voiceIsolation: false,
  channelCount: { ideal: 2 },
  ...(deviceId === null ? {} : { deviceId: { exact: deviceId } }),
});

const processingOn = (settings: ReadBackSettings): Processing[] => {
  const all: [Processing, boolean | string | undefined][] = [
    ['echo cancellation', settings.echoCancellation],
    ['noise suppression', settings.noiseSuppression],
    ['gain control', settings.autoGainControl],
    ['voice isolation', settings.voiceIsolation],
  ];
  return all.filter(([, value]) => value !== undefined && value !== false).map(([name]) => name);
};

/** Headsets on a phone link work at 8 or 16 kHz: the upper partials that make a reading sharp are missing. */
const phoneRateHertz = 16_000;

/** The facts of an open input from the settings that the browser reads back; `contextRateHertz` stands in for a rate it does not tell. */
export const inputFacts = (label: string, settings: ReadBackSettings, contextRateHertz: number): InputFacts => {
  const sampleRateHertz = settings.sampleRate ?? contextRateHertz;
  const processing = processingOn(settings);
  return {
    label,
    deviceId: settings.deviceId ?? null,
    sampleRateHertz,
    channelCount: settings.channelCount ?? 1,
    processing,
    advice: [
      ...processing.map(
        (name) => `The system left ${name} on for this input. It makes readings late and unsure; switch it off in the sound settings.`,
      ),
      ...(sampleRateHertz <= phoneRateHertz
        ? [
            `This input works at ${sampleRateHertz / 1000} kHz, as wireless headsets do. A built-in or wired microphone hears strings better.`,
          ]
        : []),
    ],
  };
};
