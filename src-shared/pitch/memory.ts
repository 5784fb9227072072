import { unknownStiffness, type Fit, type Stiffness } from './series.ts';
import { centsApart } from './string.ts';

const stringsAtMost = 16;
const reachCents = 250;
/** What a string's B may have changed by since it was last heard, and the least error that is ever believed. */
const leastSigma = 4e-6;

/** By how much one frame may shrink the error: frames overlap, some thirty of them make one independent look. */
const shrinkAtMost = 0.985;

/** Remembers the stiffness of the strings heard so far, by their pitch: B hardly changes when a string is retuned by a little. */
export const createStiffnessMemory = () => {
  const strings: { hertz: number; stiffness: Stiffness }[] = [];

  const nearest = (hertz: number) => {
    let best: (typeof strings)[number] | null = null;
    for (const entry of strings) {
      const distance = Math.abs(centsApart(entry.hertz, hertz));
      if (distance < reachCents && (best === null || distance < Math.abs(centsApart(best.hertz, hertz)))) best = entry;
    }
    return best;
  };

  return {
    recall: (hertz: number): Stiffness => nearest(hertz)?.stiffness ?? unknownStiffness,
    /** Takes over what a fit found; the fit's own error already contains what was known before. */
    learn: (fit: Fit) => {
      // Frames overlap, so one fit adds little to the last.
      const known = nearest(fit.hertz);
      const before = known?.stiffness.sigma ?? unknownStiffness.sigma;
      const stiffness = {
        inharmonicity: fit.stiffness.inharmonicity,
        sigma: Math.max(leastSigma, fit.stiffness.sigma, shrinkAtMost * before),
      };
      if (known !== null) {
        known.hertz = fit.hertz;
        known.stiffness = stiffness;
        return;
      }
      if (strings.length === stringsAtMost) strings.shift();
      strings.push({ hertz: fit.hertz, stiffness });
    },
    forget: () => {
      strings.length = 0;
    },
  };
};
