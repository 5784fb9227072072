import type { Sound } from './speaker.ts';

const toneSeconds = 2.5;
/** Time between two strings of a strum (own choice: slow enough to hear each). */
const strumSeconds = 0.12;
/** Where the ideal string is plucked, as a share of its length; its partial n has height sin(nπp)/n² (Fletcher and Rossing, The Physics of Musical Instruments, §2.8). */
const pluckPosition = 0.22;
const partialCount = 16;
const peak = 0.3;

const pluck = (context: BaseAudioContext, output: AudioNode, atSeconds: number, hertz: number, level: number) => {
  const heights = Float32Array.from({ length: partialCount + 1 }, (_, partial) =>
    partial === 0 ? 0 : Math.sin(partial * Math.PI * pluckPosition) / partial ** 2,
  );
  const wave = new PeriodicWave(context, { real: new Float32Array(heights.length), imag: heights });
  const oscillator = new OscillatorNode(context, { type: 'custom', periodicWave: wave, frequency: hertz });
  // High partials die first: a low-pass that closes, as if they did so one by one.
  const damping = new BiquadFilterNode(context, { type: 'lowpass', Q: 0.5, frequency: hertz * partialCount });
  damping.frequency.setValueAtTime(hertz * partialCount, atSeconds);
  damping.frequency.exponentialRampToValueAtTime(hertz * 1.5, atSeconds + toneSeconds);
  const envelope = new GainNode(context, { gain: 0 });
  envelope.gain.setValueAtTime(0, atSeconds);
  envelope.gain.linearRampToValueAtTime(level, atSeconds + 0.004);
  envelope.gain.exponentialRampToValueAtTime(level / 1000, atSeconds + toneSeconds);
  oscillator.connect(damping).connect(envelope).connect(output);
  oscillator.start(atSeconds);
  oscillator.stop(atSeconds + toneSeconds);
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
