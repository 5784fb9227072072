import { createConditioner } from './condition.ts';
import { lineUp, type LineUp } from './lineup.ts';
import { hearStrings, isUnison, putReading, readStrings, toSeries, type HeardStrings, type StringReading } from './strings.ts';
import type { RefusalReason } from './types.ts';
import { readUnison } from './unison.ts';

/** Of a longer sound the newest. */
const secondsAtMost = 4;
const stretchSamples = 10_000;
const goodSamples = 8_192;
const leastSamples = 3_000;
const quietDecibels = -75;
const afterOnsetSeconds = 0.025;
/** So much of the beginning is left out where there is enough sound after it. */
const glideSeconds = 0.3;
/** So much of the movement over the stretch counts as error: of a glide that falls with τ about τ over the stretch is still to come (0.15 s of 0.83), less where it is the noise that moves. */
const glideShare = 0.12;

/** Two strings that are known to be two are worth a wider error than one. */
const pairSigmaAtMostCents = 3;

type Sound = { samples: Float64Array; rateHertz: number };

/** All of the sound at the working rate, free of offset and rumble. */
const conditioned = (input: Float32Array, sampleRateHertz: number): Sound => {
  const { state, take } = createConditioner(sampleRateHertz);
  const samples = new Float64Array(Math.ceil((input.length / sampleRateHertz) * state.rateHertz));
  for (const value of input) if (take(value)) samples[state.count - 1] = state.samples[state.end - 1] ?? 0;
  return { samples: samples.subarray(0, state.count), rateHertz: state.rateHertz };
};

/** Where the strum is over and every string rings: after the last rise of the level near its maximum. */
const ringingFrom = ({ samples, rateHertz }: Sound): number => {
  const hop = Math.round(0.01 * rateHertz);
  const levels: number[] = [];
  for (let from = 0; from + hop <= samples.length; from += hop) {
    let energy = 0;
    for (let index = from; index < from + hop; index++) energy += (samples[index] ?? 0) ** 2;
    levels.push(energy);
  }
  const loudest = levels.indexOf(Math.max(...levels));
  let last = loudest;
  for (let index = loudest; index < Math.min(levels.length, loudest + 30); index++)
    if ((levels[index] ?? 0) > 1.6 * (levels[index - 1] ?? Infinity) && (levels[index] ?? 0) > 0.05 * (levels[loudest] ?? 0)) last = index;
  return (last + 1) * hop + Math.round(afterOnsetSeconds * rateHertz);
};

/** Strings of one expected pitch that are two by two: read again as pairs, where that tells more than their lines did. */
const tellUnisonsApart = (
  { places, heardAt }: HeardStrings,
  readings: StringReading[][],
  alone: LineUp['alone'],
  rates: { rateHertz: number; binHertz: number },
): void => {
  for (const { place, heard } of heardAt) {
    const [one, two, third] = places.filter((other) => isUnison(other, place));
    if (one === undefined || two === undefined || third !== undefined) continue;
    // Both may have been heard: the pair is read once.
    if (heardAt.find((other) => isUnison(other.place, place))?.heard !== heard) continue;
    const others = heardAt.filter((other) => !isUnison(other.place, place));
    const pair = readUnison(
      heard.fit,
      others.map((other) => (hertz: number) => toSeries(other.heard.fit, hertz)),
      alone,
      rates,
    );
    if (pair === null) continue;
    const sigmaOf = (at: typeof one) => {
      const reading = readings[at.courseIndex]?.[at.stringIndex];
      return reading !== undefined && 'hertz' in reading ? reading.sigmaCents : Infinity;
    };
    const [low, high] = pair;
    if (Math.max(low.sigmaCents, high.sigmaCents) > Math.min(pairSigmaAtMostCents, Math.max(sigmaOf(one), sigmaOf(two)))) continue;
    putReading(readings, one, low);
    putReading(readings, two, high);
  }
};

/** A reading holds for the middle of the stretch. A glide is not straight, so that one which still goes on moves it: the error says so. */
const allowForGlide = ({ heardAt }: HeardStrings, readings: StringReading[][], seconds: number): void => {
  for (const { place, heard } of heardAt) {
    const reading = readings[place.courseIndex]?.[place.stringIndex];
    if (reading === undefined || !('hertz' in reading)) continue;
    const glide = Math.abs(heard.fit.driftCentsPerSecond) * seconds * glideShare;
    putReading(readings, place, { ...reading, sigmaCents: Math.hypot(reading.sigmaCents, glide) });
  }
};

/** See index.ts. */
export const readStrum = (
  samples: Float32Array,
  { sampleRateHertz, courses }: { sampleRateHertz: number; courses: readonly (readonly number[])[] },
): readonly (readonly StringReading[])[] => {
  const sound = conditioned(samples.subarray(-Math.ceil(secondsAtMost * sampleRateHertz)), sampleRateHertz);
  const { rateHertz } = sound;
  const end = sound.samples.length;
  const all = (refusal: RefusalReason) => courses.map((strings) => strings.map(() => ({ refusal })));
  const ringing = ringingFrom(sound);
  // As late as the sound allows: the glide of the plucks dies away, and the fit knows none.
  const start = Math.max(ringing, Math.min(ringing + Math.round(glideSeconds * rateHertz), end - goodSamples));
  const length = Math.min(stretchSamples, end - start);
  const energy = sound.samples.reduce((sum, value) => sum + value ** 2, 0);
  if (10 * Math.log10(energy / Math.max(1, end) + 1e-20) < quietDecibels) return all('silence');
  if (length < leastSamples) return all('attack');

  const { lines, alone } = lineUp(sound.samples, start, length, rateHertz);
  const binHertz = rateHertz / length;
  const heard = hearStrings(lines, courses, binHertz);
  const readings = readStrings(heard, binHertz);
  tellUnisonsApart(heard, readings, alone, { rateHertz, binHertz });
  allowForGlide(heard, readings, length / rateHertz);
  return readings;
};
