import { emptyPartial, type Partial } from './partial.ts';
import { fitSeries, unknownStiffness, type Fit } from './series.ts';
import { centsApart, centsPerRatio, stiffRatio } from './string.ts';
import type { RefusalReason, StringPitch } from './types.ts';

export type StringReading = StringPitch | { readonly refusal: RefusalReason };

/** How far a string may be from where it is expected. */
const reachCents = 60;
const partialsAtMost = 10;
const highestHertz = 4_000;
/** Stiffnesses tried when looking for a string; the fit finds its own. */
const stiffnesses = [2e-5, 1.5e-4, 5e-4];
const searchCents = 4;
const claimCents = 1.2;
/** Two strings of the same expected pitch are told apart where a partial that both have differs by so many bins. */
const apartBins = 2.2;
const clearPartials = 2;
const leastLowPartials = 4;
const unisonCents = 90;
const sigmaScale = 1.3;
const leastSigmaCents = 0.02;

/** The pitch near `wanted` that most free lines speak for, each partial weighing as the log of its strength. Null where none does. */
const vote = (
  lines: readonly Partial[],
  free: (line: Partial) => boolean,
  wanted: number,
): { hertz: number; inharmonicity: number } | null => {
  let best: { hertz: number; inharmonicity: number } | null = null;
  let most = 0;
  for (const inharmonicity of stiffnesses)
    for (let offset = -reachCents; offset <= reachCents; offset += 1) {
      const hertz = wanted * 2 ** (offset / 1200);
      let votes = 0;
      for (let n = 1; n <= partialsAtMost && n * hertz < highestHertz; n++) {
        const expected = hertz * stiffRatio(n, inharmonicity);
        let nearest = Infinity;
        let strength = 0;
        for (const line of lines) {
          const distance = Math.abs(centsApart(line.hertz, expected));
          if (free(line) && distance < nearest) [nearest, strength] = [distance, Math.log(line.ratio)];
        }
        votes += Math.max(0, 1 - nearest / searchCents) * strength * (n === 1 ? 1.5 : 1);
      }
      if (votes > most) [most, best] = [votes, { hertz, inharmonicity }];
    }
  return best;
};

type Heard = { fit: Fit; claimed: Partial[]; partials: readonly Partial[] };

const fitString = (lines: readonly Partial[], free: (line: Partial) => boolean, wanted: number): Heard | null => {
  const guess = vote(lines, free, wanted);
  if (guess === null) return null;
  const count = Math.min(partialsAtMost, Math.floor(highestHertz / guess.hertz));
  let partials: Partial[] = [];
  let fit: Fit | null = null;
  for (const within of [searchCents, searchCents / 2, searchCents / 3]) {
    const { hertz, inharmonicity }: { hertz: number; inharmonicity: number } =
      fit === null ? guess : { hertz: fit.hertz, inharmonicity: fit.stiffness.inharmonicity };
    partials = [emptyPartial()];
    for (let n = 1; n <= count; n++) {
      const expected = hertz * stiffRatio(n, inharmonicity);
      let nearest: Partial | null = null;
      for (const line of lines)
        if (free(line) && (nearest === null || Math.abs(line.hertz - expected) < Math.abs(nearest.hertz - expected))) nearest = line;
      const close = nearest !== null && Math.abs(centsApart(nearest.hertz, expected)) < within + 0.2 * n;
      partials.push(nearest !== null && close ? { ...nearest, heard: true } : emptyPartial());
    }
    fit = fitSeries(partials, count, hertz, unknownStiffness);
    if (fit === null) return null;
  }
  // Without its first partial a string needs most of its low ones: two or three may be another string's.
  const low = partials.slice(2, 7).filter((partial) => partial.heard).length;
  if (fit === null || (!partials[1]?.heard && low < leastLowPartials)) return null;
  const claimed = lines.filter((line) => {
    const n = Math.round(line.hertz / fit.hertz);
    if (n < 1 || n > 20 || !free(line)) return false;
    const apart = Math.abs(centsApart(line.hertz, fit.hertz * stiffRatio(n, fit.stiffness.inharmonicity)));
    return apart < claimCents + 2 * Math.hypot(fit.sigmaCents, fit.systematicCents) + 600 * Math.log2(1 + n * n * fit.stiffness.sigma);
  });
  return { fit, claimed, partials };
};

type Place = { wanted: number; courseIndex: number; stringIndex: number };

/**
 * A string fitted anew by the partials at which it stands clear of every other string of the same expected pitch; below, the two have
 * run into one line whose pitch is neither's. Null where there is no such partial.
 */
const toldApart = (one: Heard, others: readonly Heard[], leastHertz: number): Fit | null => {
  if (others.length === 0) return one.fit;
  const clear = one.partials.map((partial, n) => {
    const apart = others.every(
      (other) => other.partials[n]?.heard === true && Math.abs(other.partials[n].hertz - partial.hertz) > leastHertz,
    );
    return { ...partial, heard: partial.heard && apart };
  });
  if (clear.filter((partial) => partial.heard).length < clearPartials) return null;
  return fitSeries(clear, clear.length - 1, one.fit.hertz, one.fit.stiffness);
};

/**
 * Which of the lines heard belong to which of the strings expected, and their pitches. Every string is looked for within ±60 cents of
 * where it is wanted; strings of the same expected pitch come in rising order. `binHertz`: one over the length of what was heard.
 */
export const readStrings = (lines: readonly Partial[], courses: readonly (readonly number[])[], binHertz: number): StringReading[][] => {
  const owned = new Set<Partial>();
  const readings: StringReading[][] = courses.map((strings) => strings.map(() => ({ refusal: 'unclear' })));
  const put = ({ courseIndex, stringIndex }: Place, reading: StringReading) => {
    const course = readings[courseIndex];
    if (course !== undefined) course[stringIndex] = reading;
  };
  const places: Place[] = courses.flatMap((course, courseIndex) =>
    course.map((wanted, stringIndex) => ({ wanted, courseIndex, stringIndex })),
  );
  const heardAt: { place: Place; heard: Heard }[] = [];
  // From the lowest: its odd partials are its own, and tell where its even ones lie under an octave string's.
  for (const place of places.sort((left, right) => left.wanted - right.wanted)) {
    const heard = fitString(lines, (line) => !owned.has(line), place.wanted);
    if (heard === null) {
      // Lines are there, but all of them belong to strings already read: unison or octave, not to be told apart.
      const taken = fitString(lines, (line) => owned.has(line), place.wanted);
      put(place, { refusal: taken === null ? 'unclear' : 'two sounds' });
      continue;
    }
    for (const line of heard.claimed) owned.add(line);
    heardAt.push({ place, heard });
  }
  for (const { place, heard } of heardAt) {
    const others = heardAt.filter((other) => other.heard !== heard && Math.abs(centsApart(other.place.wanted, place.wanted)) < unisonCents);
    const merged = others.length + 1 < places.filter((other) => Math.abs(centsApart(other.wanted, place.wanted)) < unisonCents).length;
    const fit = merged
      ? null
      : toldApart(
          heard,
          others.map((other) => other.heard),
          apartBins * binHertz,
        );
    if (fit === null) put(place, { refusal: 'two sounds' });
    else {
      // Lines side by side pull at one another: a quarter of a bin of the second partial, where there is a twin.
      const pull = others.length === 0 ? 0 : (0.25 * binHertz * centsPerRatio) / (2 * fit.hertz);
      put(place, { hertz: fit.hertz, sigmaCents: sigmaScale * Math.hypot(fit.sigmaCents, fit.systematicCents, leastSigmaCents, pull) });
    }
  }
  return readings;
};
