import { lineOf, mixLine, projectOn, type Amplitude, type Line } from './lines.ts';
import { createPeakFinder } from './peaks.ts';
import { mainsPartialOf } from './mains.ts';
import { addPull, emptyPartial, measurePartial, type Partial } from './partial.ts';
import type { Spectrum } from './spectrum.ts';

const linesAtMost = 40;
const ratioAtLeast = 25;
/** A line must foretell its own amplitude and phase in both halves of the stretch this well. */
const surpriseAtMost = 0.35;
const sweeps = 2;
/** So much of a line's amplitude is left where it is taken away (measured with the pitch bench: a unison and mains hum, seeds 50100 + 101 i). */
const leftShare = 0.004;
/** Half the width of a main lobe, in bins. */
const lobe = 2;
const fastestDecay = 25;
const humDecayAtMost = 1;
/** A line this near to a pitch is that pitch (10 cents). */
const knownShare = 0.0058;
/** A line goes on as foretold where no more than this share of its power is new; a string does where lines with so much of its power do. */
const surpriseOfKept = 0.25;
const keptShare = 0.3;
/** Projections on fewer samples than this say nothing. */
const comparedSamples = 480;

/**
 * Adds to the error of a partial at `hertz`, measured in a stretch of so many seconds that ends now, what each line does to it that rings on in
 * its main lobe: all of it where it may ring on and is not taken away, what is left of it where it is.
 */
export type Remains = (partial: Partial, hertz: number, seconds: number) => void;

/** `target`: whether it is a partial of the string followed before the pluck. */
type BackgroundLine = Line & { target: boolean };

/**
 * What rang or hummed before a pluck, as damped sinusoids that are foretold and taken away from what follows: mains hum and the
 * other strings alike. Sinusoids one after the other from the strongest, each from what the others leave (matching pursuit:
 * S. Mallat and Z. Zhang, IEEE Trans. Signal Processing 41, 1993).
 */
export const createBackground = (rateHertz: number, historySamples: number) => {
  const findPeaks = createPeakFinder();
  const measured = emptyPartial();
  const clean = new Float64Array(2 * historySamples);
  const rest = new Float64Array(8_192);
  const off: Amplitude = { real: 0, imaginary: 0 };
  let lines: BackgroundLine[] = [];
  /** The target's lines once they are no longer taken away, and those of them that may ring on all the same. */
  let released: BackgroundLine[] = [];
  let doubted: BackgroundLine[] = [];
  let lastEnd = 0;
  /** Oscillators, one per line: value at the sample to come, and the factor from one sample to the next. */
  const state = new Float64Array(4 * linesAtMost);

  /** Brings the oscillators to `offset` samples after the lines' origin. */
  const wind = (offset: number) => {
    for (const [index, line] of lines.entries()) {
      const height = Math.exp((-line.decay * offset) / rateHertz);
      const cosine = Math.cos(line.radians * offset);
      const sine = Math.sin(line.radians * offset);
      const factor = Math.exp(-line.decay / rateHertz);
      state[4 * index] = height * (line.real * cosine - line.imaginary * sine);
      state[4 * index + 1] = height * (line.real * sine + line.imaginary * cosine);
      state[4 * index + 2] = factor * Math.cos(line.radians);
      state[4 * index + 3] = factor * Math.sin(line.radians);
    }
  };

  /** What the lines are at the next sample. */
  const foretell = () => {
    let sum = 0;
    for (let at = 0; at < 4 * lines.length; at += 4) {
      const real = state[at] ?? 0;
      const imaginary = state[at + 1] ?? 0;
      const stepReal = state[at + 2] ?? 0;
      const stepImaginary = state[at + 3] ?? 0;
      sum += real;
      state[at] = real * stepReal - imaginary * stepImaginary;
      state[at + 1] = real * stepImaginary + imaginary * stepReal;
    }
    return sum;
  };

  /** The partials of the hum are whole multiples of one frequency and do not die away: together they give it far better than each alone. */
  const alignHum = (found: BackgroundLine[]) => {
    for (const mains of [50, 60]) {
      let weights = 0;
      let sum = 0;
      let count = 0;
      const family = found.flatMap((line) => {
        const place = mainsPartialOf((line.radians * rateHertz) / (2 * Math.PI));
        return place?.mains === mains && line.decay < humDecayAtMost ? [{ line, partial: place.partial }] : [];
      });
      for (const { line, partial } of family) {
        weights += partial * partial * line.power;
        sum += partial * line.power * line.radians;
        count++;
      }
      if (count < 3) continue;
      const radians = sum / weights;
      for (const { line, partial } of family) {
        if (Math.abs(line.radians - partial * radians) * rateHertz > 2 * Math.PI * 0.3) continue;
        line.radians = partial * radians;
        line.decay = 0;
      }
    }
  };

  /** Where the lines' amplitudes are meant, in samples before `lastEnd`. */
  let originBack = 0;

  const redo = (samples: Float64Array, back: number) => {
    const from = Math.max(0, lastEnd - back);
    wind(originBack - (lastEnd - from));
    for (let index = from; index < lastEnd; index++) clean[index] = (samples[index] ?? 0) - foretell();
  };

  const targets = () => lines.filter((line) => line.target);

  /**
   * Whether those of the lines that carry much of their power are heard as foretold in the newest `usable` samples; `left`: how much of them the
   * clean sound still has, 0 or 1.
   */
  const asForetold = (asked: readonly Line[], usable: number, left: 0 | 1): boolean | null => {
    const length = Math.min(usable, rest.length);
    if (asked.length === 0 || length < comparedSamples) return null;
    const start = lastEnd - length;
    const origin = length - originBack;
    for (let index = 0; index < length; index++) rest[index] = clean[start + index] ?? 0;
    let power = 0;
    let kept = 0;
    for (const line of asked) {
      projectOn(line, rest, 0, length, origin, rateHertz, off);
      const height = Math.exp((-line.decay * (length / 2 - origin)) / rateHertz) ** 2;
      const own = line.real ** 2 + line.imaginary ** 2;
      power += height * own;
      if ((off.real - left * line.real) ** 2 + (off.imaginary - left * line.imaginary) ** 2 < surpriseOfKept * own) kept += height * own;
    }
    return kept > keptShare * power;
  };

  /** Adds what so much of one line does to a partial. */
  const addRemains = (line: Line, share: number, partial: Partial, hertz: number, seconds: number) => {
    const apartHertz = Math.abs((line.radians * rateHertz) / (2 * Math.PI) - hertz);
    if (apartHertz > lobe / seconds) return;
    const height = share * Math.hypot(line.real, line.imaginary) * Math.exp(-line.decay * (originBack / rateHertz - seconds / 2));
    // A sinusoid of height 1 has the power (length/4)² under a Hann window.
    addPull(partial, apartHertz, ((height * seconds * rateHertz) / 4) ** 2, seconds);
  };
  const remains: Remains = (partial, hertz, seconds) => {
    for (const line of doubted) addRemains(line, 1, partial, hertz, seconds);
    for (const line of lines) addRemains(line, leftShare, partial, hertz, seconds);
  };

  return {
    /** The sound without its background; same places as the samples that it came from. */
    clean,

    /** Takes over the newest sample. */
    append: (samples: Float64Array, end: number) => {
      if (end < lastEnd) clean.copyWithin(0, historySamples);
      lastEnd = end;
      originBack++;
      clean[end - 1] = (samples[end - 1] ?? 0) - foretell();
    },

    /**
     * Learns the lines from the `length` samples that end `back` samples before the newest, of which `spectrum` is the transform.
     * `isTarget`: whether a frequency is a partial of the string followed until now.
     */
    learn: (samples: Float64Array, back: number, length: number, spectrum: Spectrum, isTarget: (hertz: number) => boolean) => {
      const start = lastEnd - back - length;
      for (let index = 0; index < length; index++) rest[index] = samples[start + index] ?? 0;
      const origin = length / 2;
      const peaks = findPeaks(spectrum);
      const found: BackgroundLine[] = [];
      for (let index = 0; index < peaks.count; index++) {
        const hertz = peaks.hertz[index] ?? 0;
        if (!measurePartial(spectrum, hertz, measured) || measured.ratio < ratioAtLeast) continue;
        if (Math.abs(measured.hertz - hertz) > 1 / spectrum.seconds || Math.abs(measured.decayPerSecond) > fastestDecay) continue;
        found.push({ ...lineOf(measured, rateHertz), target: isTarget(measured.hertz) });
      }
      alignHum(found);
      found.sort((left, right) => right.power - left.power);
      lines = found.slice(0, linesAtMost);
      for (let sweep = 0; sweep < sweeps; sweep++)
        for (const line of lines) {
          if (sweep > 0) mixLine(line, rest, 1, length, origin, rateHertz);
          projectOn(line, rest, 0, length, origin, rateHertz, line);
          mixLine(line, rest, -1, length, origin, rateHertz);
        }
      // Keep what each half of the stretch confirms.
      const half = Math.floor(length / 2);
      lines = lines.filter((line) => {
        const size = Math.hypot(line.real, line.imaginary);
        return [0, length - half].every((from) => {
          projectOn(line, rest, from, half, origin, rateHertz, off);
          return Math.hypot(off.real, off.imaginary) < surpriseAtMost * size;
        });
      });
      originBack = back + length / 2;
      released = doubted = [];
      redo(samples, back + length);
    },

    remains,

    /** Whether a pitch belongs to what rang before the pluck. */
    knows: (hertz: number): boolean =>
      lines.some((line) => {
        const heard = (line.radians * rateHertz) / (2 * Math.PI);
        return Math.abs(heard / hertz - 1) < knownShare || Math.abs(heard / (2 * hertz) - 1) < knownShare;
      }),

    /**
     * Whether the string followed until now rings on as foretold, in the newest `usable` samples. One that is plucked anew or damped changes all
     * its partials at once; another sound only those that it meets. Null where there is too little to say.
     */
    targetRingsOn: (usable: number): boolean | null => asForetold(targets(), usable, 0),

    /**
     * The same of the string that was released last, of which the sound still has everything. `isApart`: which of its partials can be told from
     * those of the string that was found since.
     */
    releasedRingsOn: (usable: number, isApart: (hertz: number) => boolean): boolean | null =>
      asForetold(
        released.filter((line) => isApart((line.radians * rateHertz) / (2 * Math.PI))),
        usable,
        1,
      ),

    /** Stops taking away the string followed until now: it was plucked anew, or goes on being the one to follow. */
    releaseTarget: (samples: Float64Array, back: number) => {
      released = targets();
      if (released.length === 0) return;
      lines = lines.filter((line) => !line.target);
      redo(samples, back);
    },

    /** What was released last rings on after all: takes it away again, from the last `back` samples too. */
    takeBack: (samples: Float64Array, back: number) => {
      lines = [...lines, ...released].slice(0, linesAtMost);
      released = doubted = [];
      redo(samples, back);
    },

    /** What was released last was not plucked anew, but may ring on under the partials of the string that was. */
    doubtReleased: () => {
      doubted = released;
    },

    clear: () => {
      lines = [];
    },

    reset: () => {
      lines = released = doubted = [];
      clean.fill(0);
      lastEnd = 0;
    },
  };
};
