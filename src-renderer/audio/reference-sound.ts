import type { Sound } from './speaker.ts';

/** How long one string sounds: the longest decay below. */
const toneSeconds = 2.5;
/** Time between two strings of a strum (own choice: slow enough to hear each). */
const strumSeconds = 0.12;
/** Where the ideal string is plucked, as a share of its length; its partial n has height sin(nπp)/n² (Fletcher and Rossing, The Physics of Musical Instruments, §2.8). */
const pluckPosition = 0.22;
const peak = 0.3;
/** Groups of partials, and the time in which each falls by 60 dB: high ones die first. Levels alone change, never phases, so the pitch stays exact. */
const groups = [
  { partials: [1, 2], decaySeconds: 2.5 },
  { partials: [3, 4, 5, 6], decaySeconds: 1.4 },
  { partials: [7, 8, 9, 10, 11, 12, 13, 14, 15, 16], decaySeconds: 0.5 },
];

const height = (partial: number) => Math.sin(partial * Math.PI * pluckPosition) / partial ** 2;

const pluck = (context: BaseAudioContext, output: AudioNode, atSeconds: number, hertz: number, level: number) => {
  for (const { partials, decaySeconds } of groups) {
    const imag = new Float32Array(Math.max(...partials) + 1);
    for (const partial of partials) imag[partial] = height(partial) / height(1);
    // The heights are meant as they are: each group scaled to full level by itself would change the tone.
    const periodicWave = new PeriodicWave(context, { real: new Float32Array(imag.length), imag, disableNormalization: true });
    const oscillator = new OscillatorNode(context, { type: 'custom', periodicWave, frequency: hertz });
    const envelope = new GainNode(context, { gain: 0 });
    envelope.gain.setValueAtTime(0, atSeconds);
    envelope.gain.linearRampToValueAtTime(level, atSeconds + 0.004);
    envelope.gain.exponentialRampToValueAtTime(level / 1000, atSeconds + decaySeconds);
    oscillator.connect(envelope).connect(output);
    oscillator.start(atSeconds);
    oscillator.stop(atSeconds + decaySeconds);
  }
};

const checked = (hertz: number) => {
  if (!(hertz >= 16 && hertz <= 5000)) throw new RangeError(`a reference tone must be 16…5000 hertz; got ${hertz}`);
  return hertz;
};

/** A plucked-like tone with exact partials, 2.5 s. Throws RangeError outside 16…5000 Hz. `speaker.play(referenceTone(392))`. */
export const referenceTone = (hertz: number): Sound => referenceStrum([hertz]);

/** The strings of a tuning one after the other, as in one slow strum. Throws RangeError outside 16…5000 Hz. `speaker.play(referenceStrum([392, 262, 330, 440]))`. */
export const referenceStrum = (stringsHertz: readonly number[]): Sound => {
  const pitches = stringsHertz.map(checked);
  return (context, output, atSeconds) => {
    for (const [index, hertz] of pitches.entries())
      pluck(context, output, atSeconds + index * strumSeconds, hertz, peak / Math.sqrt(pitches.length));
    return pitches.length === 0 ? 0 : toneSeconds + (pitches.length - 1) * strumSeconds;
  };
};
