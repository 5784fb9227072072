import type { Sound } from './speaker.ts';

/** Two soft knocks, the second higher; between the notes of any tuning, so that they are not taken for a string. */
const knocks = [
  { afterSeconds: 0, hertz: 1130 },
  { afterSeconds: 0.09, hertz: 1510 },
];
const knockSeconds = 0.08;

/** The sound that says "this course has landed": 0.17 s. */
export const landingCue: Sound = (context, output, atSeconds) => {
  for (const { afterSeconds, hertz } of knocks) {
    const start = atSeconds + afterSeconds;
    const oscillator = new OscillatorNode(context, { type: 'sine', frequency: hertz });
    const envelope = new GainNode(context, { gain: 0 });
    envelope.gain.setValueAtTime(0, start);
    envelope.gain.linearRampToValueAtTime(0.3, start + 0.004);
    envelope.gain.exponentialRampToValueAtTime(0.0001, start + knockSeconds);
    oscillator.connect(envelope).connect(output);
    oscillator.start(start);
    oscillator.stop(start + knockSeconds);
  }
  return (knocks.at(-1)?.afterSeconds ?? 0) + knockSeconds;
};
