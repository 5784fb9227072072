import type { Remains } from './background.ts';
import { addLeakage, clearFloor, emptyPartial, measurePartial, setErrors, type Partial } from './partial.ts';
import { fitSeries, leastStrayCents, type Fit, type Stiffness } from './series.ts';
import type { Spectrum } from './spectrum.ts';
import type { Strays } from './stray.ts';
import { centsApart, centsPerRatio, shifted, stiffRatio } from './string.ts';

const partialsAtMost = 16;
const highestHertz = 4_700;
/** Fits a stiff string near `guessHertz` to a spectrum: its partials one by one, then all together. Null where no partial stands out. */
export const createRefiner = (remains: Remains | null) => {
  const partials: Partial[] = Array.from({ length: partialsAtMost + 1 }, emptyPartial);

  return (spectrum: Spectrum, guessHertz: number, prior: Stiffness, strays: Strays | null): Fit | null => {
    const count = Math.min(partialsAtMost, Math.floor(highestHertz / guessHertz));
    let guess = guessHertz;
    let weightSum = 1 / (20 / Math.sqrt(spectrum.seconds * guessHertz)) ** 2;
    let pull = 0;
    for (let n = 1; n <= count; n++) {
      const partial = partials[n] ?? emptyPartial();
      const expected = guess * stiffRatio(n, prior.inharmonicity);
      partial.heard = false;
      if (!measurePartial(spectrum, expected, partial) || Math.abs(partial.hertz - expected) > 1.1 / spectrum.seconds) continue;
      if (Math.abs(partial.hertz - expected) > 0.4 / spectrum.seconds && !measurePartial(spectrum, partial.hertz, partial)) continue;
      if (partial.ratio < 8 || Math.abs(partial.hertz - expected) > 1.2 / spectrum.seconds || partial.hertz <= 0) continue;
      partial.heard = true;
      remains?.(partial, expected, spectrum.seconds);
      const sigma = (partial.sigmaHertz / expected) * centsPerRatio + leastStrayCents + 600 * Math.log2(1 + n * n * prior.sigma * 0.5);
      weightSum += 1 / sigma ** 2;
      pull += centsApart(partial.hertz, guessHertz * stiffRatio(n, prior.inharmonicity)) / sigma ** 2;
      guess = shifted(guessHertz, pull / weightSum);
    }
    for (let n = 1; n <= count; n++) {
      const partial = partials[n];
      if (!partial?.heard) continue;
      for (let other = Math.max(1, n - 2); other <= Math.min(count, n + 2); other++) {
        const neighbour = partials[other];
        if (other !== n && neighbour?.heard) addLeakage(partial, neighbour, spectrum.seconds);
      }
      clearFloor(partial, partials, guess, spectrum.seconds);
      setErrors(partial, spectrum.seconds);
    }
    return fitSeries(partials, count, guess, prior, strays);
  };
};
