/** The last seconds of a sound at the working rate, free of offset and rumble, with its level and clipping. */
export type Conditioned = {
  readonly rateHertz: number;
  /** Working samples; the newest is `samples[end − 1]`. */
  samples: Float64Array;
  end: number;
  /** Time of the newest sample taken, on the sample clock; the working samples are `delaySeconds` behind it. */
  endSeconds: number;
  readonly delaySeconds: number;
  /** Working samples since the last reset. */
  count: number;
};

const workingRateHertz = 11_000;
export const historySamples = 16_384;
/** Below the lowest string that anyone tunes (a five-string bass's B0 is 30.9 Hz). */
const rumbleHertz = 16;
const clippedAt = 0.985;

/** Low-pass for the decimation: a sinc under a Blackman window, Oppenheim and Schafer, Discrete-Time Signal Processing, §7.5. */
const lowPass = (factor: number) => {
  const length = 20 * factor + 1;
  const middle = (length - 1) / 2;
  const taps = Float64Array.from({ length }, (_, index) => {
    const at = (index - middle) / factor;
    const sinc = at === 0 ? 1 : Math.sin(Math.PI * 0.88 * at) / (Math.PI * 0.88 * at);
    const turn = (2 * Math.PI * (index + 0.5)) / length;
    return sinc * (0.42 - 0.5 * Math.cos(turn) + 0.08 * Math.cos(2 * turn));
  });
  const sum = taps.reduce((total, tap) => total + tap, 0);
  return taps.map((tap) => tap / sum);
};

/**
 * Takes samples of any rate and block length and keeps them at about 12 kHz: all that a tuned string says is below 5 kHz.
 * `take` reads one input sample and says whether a working sample was added. Throws RangeError below 8 kHz or above 400 kHz.
 */
export const createConditioner = (sampleRateHertz: number) => {
  if (!(sampleRateHertz >= 8_000 && sampleRateHertz <= 400_000))
    throw new RangeError(`sampleRateHertz must be between 8000 and 400000; got ${sampleRateHertz}`);
  const factor = Math.max(1, Math.floor(sampleRateHertz / workingRateHertz));
  const taps = factor === 1 ? Float64Array.of(1) : lowPass(factor);
  const delaySeconds = (taps.length - 1) / 2 / sampleRateHertz;
  const rateHertz = sampleRateHertz / factor;
  const input = new Float64Array(2 * taps.length);
  const state: Conditioned = {
    rateHertz,
    samples: new Float64Array(2 * historySamples),
    end: 0,
    endSeconds: 0,
    delaySeconds,
    count: 0,
  };
  const pole = Math.exp((-2 * Math.PI * rumbleHertz) / rateHertz);
  let written = 0;
  let phase = 0;
  let taken = 0;
  /** In an object: a fraction that a closure keeps is allocated anew whenever it changes. */
  const last = { working: 0, offsetFree: 0, clippedShare: 0 };
  const clippedDecay = Math.exp(-1 / (0.1 * sampleRateHertz));

  const append = (value: number) => {
    if (state.end === state.samples.length) {
      state.samples.copyWithin(0, historySamples);
      state.end = historySamples;
    }
    last.offsetFree = pole * (last.offsetFree + value - last.working);
    last.working = value;
    state.samples[state.end++] = last.offsetFree;
    state.count++;
    state.endSeconds = (taken - 1) / sampleRateHertz;
  };

  const take = (raw: number): boolean => {
    const value = Number.isFinite(raw) ? raw : 0;
    input[written] = value;
    input[written + taps.length] = value;
    written = (written + 1) % taps.length;
    taken++;
    last.clippedShare = clippedDecay * last.clippedShare + (Math.abs(value) >= clippedAt ? 1 - clippedDecay : 0);
    if (++phase < factor) return false;
    phase = 0;
    let sum = 0;
    for (let tap = 0; tap < taps.length; tap++) sum += (taps[tap] ?? 0) * (input[written + tap] ?? 0);
    append(sum);
    return true;
  };

  const reset = () => {
    input.fill(0);
    state.samples.fill(0);
    state.end = state.endSeconds = state.count = written = phase = taken = 0;
    last.working = last.offsetFree = last.clippedShare = 0;
  };

  return { state, take, reset, clippedShare: () => last.clippedShare };
};

/** Level of the last `seconds` in dBFS (0 = full-scale square wave, −200 = digital silence): 20·log10 of the root mean square. */
export const levelDecibels = ({ samples, end, rateHertz }: Conditioned, seconds: number): number => {
  const length = Math.min(end, Math.round(seconds * rateHertz));
  let energy = 0;
  for (let index = end - length; index < end; index++) energy += (samples[index] ?? 0) ** 2;
  return 10 * Math.log10(energy / Math.max(1, length) + 1e-20);
};
