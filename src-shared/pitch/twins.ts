import { emptyPartial, measurePartial, type Partial } from './partial.ts';
import { createPeakFinder } from './peaks.ts';
import { createSpectrometer } from './spectrum.ts';
import { centsApart } from './string.ts';
import { hearStrings, readStrings } from './strings.ts';
import type { Hint, StringPitch } from './types.ts';

const stretchSamples = 8_192;
const courseCents = 90;
const ratioAtLeast = 16;
const stringsAtMost = 3;

/**
 * The strings of a double or triple course, from one long stretch: where their partials stand clear of one another each has its own
 * pitch. Null where the course has one string, or its strings cannot be told apart; the first is the one nearest to `hertz`.
 */
export const createTwinFinder = (rateHertz: number) => {
  const { spectrumOf } = createSpectrometer(2 * stretchSamples, rateHertz);
  const findPeaks = createPeakFinder();
  return (samples: Float64Array, end: number, usable: number, hertz: number, hint: Hint | null): StringPitch[] | null => {
    const course = hint === null ? [] : hint.hertz.filter((expected) => Math.abs(centsApart(expected, hertz)) < courseCents);
    if (course.length < 2 || course.length > stringsAtMost || usable < stretchSamples || end < stretchSamples) return null;
    const spectrum = spectrumOf(samples, end - stretchSamples, stretchSamples, hertz);
    const peaks = findPeaks(spectrum);
    const lines: Partial[] = [];
    for (let index = 0; index < peaks.count; index++) {
      const line = emptyPartial();
      if (measurePartial(spectrum, peaks.hertz[index] ?? 0, line) && line.ratio >= ratioAtLeast) lines.push(line);
    }
    const binHertz = 1 / spectrum.seconds;
    const [strings = []] = readStrings(hearStrings(lines, [course.map(() => hertz)], binHertz), binHertz);
    const heard = strings.flatMap((reading) => ('hertz' in reading ? [reading] : []));
    if (heard.length < course.length) return null;
    return heard.sort((left, right) => Math.abs(centsApart(left.hertz, hertz)) - Math.abs(centsApart(right.hertz, hertz)));
  };
};
