import { unknownStiffness, type Fit, type Stiffness } from './series.ts';
import { centsApart } from './string.ts';

const stringsAtMost = 16;
const reachCents = 250;
/** What a string's B may have changed by since it was last heard, and the least error that is ever believed. */
const leastSigma = 4e-6;

/** Frames overlap: so many of them make one independent look. */
const framesPerLook = 30;

/** What was known, with one frame's share of what a fit that began from it added. */
const learnt = (known: Stiffness, fitted: Stiffness): Stiffness => {
  const before = 1 / known.sigma ** 2;
  const after = Math.max(before, 1 / fitted.sigma ** 2);
  const information = before + (after - before) / framesPerLook;
  const share = after / framesPerLook / information;
  return {
    inharmonicity: known.inharmonicity + share * (fitted.inharmonicity - known.inharmonicity),
    sigma: Math.max(leastSigma, 1 / Math.sqrt(information)),
    // Frame after frame errs alike.
    sigmaSeen: known.sigmaSeen + Math.min(1, share) * (fitted.sigmaSeen - known.sigmaSeen),
  };
};

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
    /** Takes over a share of what a fit found that began from what is remembered. */
    learn: (fit: Fit) => {
      const known = nearest(fit.hertz);
      const stiffness = fit.isAnother ? fit.stiffness : learnt(known?.stiffness ?? unknownStiffness, fit.stiffness);
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
