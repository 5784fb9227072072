/** Sound as samples: full scale is −1…1, every channel has the same number of samples. */
export type Recording = { readonly sampleRateHertz: number; readonly channels: readonly Float32Array[] };

/** How long a recording sounds, in seconds. `secondsOf({ sampleRateHertz: 48000, channels: [new Float32Array(24000)] })` → 0.5. */
export const secondsOf = (recording: Recording): number => (recording.channels[0]?.length ?? 0) / recording.sampleRateHertz;
