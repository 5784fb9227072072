import { emptyPartial, hannLeak, type Partial } from './partial.ts';
import { fitSeries, unknownStiffness, type Fit } from './series.ts';
import { centsApart, centsPerRatio, shifted, stiffRatio } from './string.ts';
import type { RefusalReason, StringPitch } from './types.ts';

export type StringReading = StringPitch | { readonly refusal: RefusalReason };

/** How far a string may be from where it is expected. */
const reachCents = 60;
const partialsAtMost = 10;
const highestHertz = 4_000;
/** Stiffnesses tried when looking for a string; the fit finds its own. */
const stiffnesses = [2e-5, 1.5e-4, 5e-4];
const searchCents = 4;
const nearCents = searchCents / 3;
/** Further from what most lines speak for, a line is no first partial of that string. */
const besideCents = 10;
/** How far a partial may lie from its multiple: the string's reach and a little more, and what the largest stiffness tried adds for partial n over n². */
const voteReachCents = reachCents + searchCents;
const stretchCents = 0.45;
const claimCents = 1.2;
/** Two strings of the same expected pitch are told apart where a partial that both have differs by so many bins. */
const apartBins = 2.2;
const clearBins = 1.2;
const clearPartials = 3;
/** … of which the first one tells more than another. */
const clearWithFirst = 2;
/** A string's partials beyond this one are too weak to be in another's way. */
const seriesAtMost = 16;
const leastLowPartials = 4;
/** A first partial without any other stands so far above the noise, in power; else it may be noise itself. */
const loneRatioAtLeast = 60;
const unisonCents = 90;
/** A reading with a larger error is none. */
const sigmaAtMostCents = 1.5;
const sigmaScale = 1;
const leastSigmaCents = 0.01;

type Guess = { hertz: number; inharmonicity: number };

/** The pitch near `wanted` that most free lines speak for, each partial weighing as the log of its strength. Null where none does. */
const vote = (lines: readonly Partial[], free: (line: Partial) => boolean, wanted: number): Guess | null => {
  let best: Guess | null = null;
  let most = 0;
  // For each partial the lines that could be it, and the log of their strength.
  const nearby = Array.from({ length: partialsAtMost + 1 }, (_, n) => {
    const [low, high] = [-voteReachCents, voteReachCents + stretchCents * n * n].map((cents) => shifted(n * wanted, cents));
    return lines
      .filter((line) => line.hertz > (low ?? 0) && line.hertz < (high ?? 0) && free(line))
      .map((line) => ({ hertz: line.hertz, strength: Math.log(line.ratio) }));
  });
  for (const inharmonicity of stiffnesses)
    for (let offset = -reachCents; offset <= reachCents; offset += 1) {
      const hertz = shifted(wanted, offset);
      let votes = 0;
      for (let n = 1; n <= partialsAtMost && n * hertz < highestHertz; n++) {
        const expected = hertz * stiffRatio(n, inharmonicity);
        let nearest = Infinity;
        let strength = 0;
        for (const line of nearby[n] ?? []) {
          const distance = Math.abs(line.hertz / expected - 1) * centsPerRatio;
          if (distance < nearest) [nearest, strength] = [distance, line.strength];
        }
        votes += Math.max(0, 1 - nearest / searchCents) * strength * (n === 1 ? 1.5 : 1);
      }
      if (votes > most) [most, best] = [votes, { hertz, inharmonicity }];
    }
  return best;
};

export type Heard = { fit: Fit; claimed: Partial[]; partials: readonly Partial[] };

/** The string nearest to a guess, by the free lines within `reaches` cents of its partials, round by round. Null where they are too few. */
const fitNear = (lines: readonly Partial[], free: (line: Partial) => boolean, guess: Guess, reaches: readonly number[]): Heard | null => {
  const count = Math.min(partialsAtMost, Math.floor(highestHertz / guess.hertz));
  let partials: Partial[] = [];
  let fit: Fit | null = null;
  for (const within of reaches) {
    const { hertz, inharmonicity }: Guess = fit === null ? guess : { hertz: fit.hertz, inharmonicity: fit.stiffness.inharmonicity };
    // Until it is known which lines are its own, all count alike: a loud one may be another string's.
    const isLast = within === nearCents;
    partials = [emptyPartial()];
    for (let n = 1; n <= count; n++) {
      const expected = hertz * stiffRatio(n, inharmonicity);
      let nearest: Partial | null = null;
      for (const line of lines)
        if (free(line) && (nearest === null || Math.abs(line.hertz - expected) < Math.abs(nearest.hertz - expected))) nearest = line;
      const close = nearest !== null && Math.abs(centsApart(nearest.hertz, expected)) < within + 0.2 * n;
      partials.push(nearest !== null && close ? { ...nearest, heard: true, power: isLast ? nearest.power : 1 / (n * n) } : emptyPartial());
    }
    fit = fitSeries(partials, count, hertz, unknownStiffness);
    if (fit === null) return null;
  }
  // Without its first partial a string needs most of its low ones: two or three may be another string's.
  const low = partials.slice(2, 7).filter((partial) => partial.heard).length;
  const [, first] = partials;
  const isLoneNoise = first?.heard && first.ratio < loneRatioAtLeast && partials.filter((partial) => partial.heard).length === 1;
  if (fit === null || isLoneNoise || (!first?.heard && low < leastLowPartials)) return null;
  const claimed = lines.filter((line) => {
    const n = Math.round(line.hertz / fit.hertz);
    if (n < 1 || n > 20 || !free(line)) return false;
    const apart = Math.abs(centsApart(line.hertz, fit.hertz * stiffRatio(n, fit.stiffness.inharmonicity)));
    return apart < claimCents + 2 * Math.hypot(fit.sigmaCents, fit.systematicCents) + 600 * Math.log2(1 + n * n * fit.stiffness.sigma);
  });
  return { fit, claimed, partials };
};

/**
 * The string near `wanted`. Where the lines that speak for it leave out the strongest that may be its first partial, because others' lie among
 * them or it is one of two strings that they lie between, what goes with that line counts.
 */
const fitString = (lines: readonly Partial[], free: (line: Partial) => boolean, wanted: number): Heard | null => {
  const guess = vote(lines, free, wanted);
  if (guess === null) return null;
  const voted = fitNear(lines, free, guess, [searchCents, searchCents / 2, nearCents]);
  if (voted?.partials[1]?.heard) return voted;
  const [strongest] = lines
    .filter((line) => free(line) && Math.abs(centsApart(line.hertz, wanted)) < reachCents)
    .sort((left, right) => right.power - left.power);
  if (strongest === undefined) return voted;
  if (voted !== null && Math.abs(centsApart(strongest.hertz, voted.fit.hertz)) > besideCents) return voted;
  const heard = fitNear(lines, free, { ...guess, hertz: strongest.hertz }, [nearCents]);
  return heard?.partials[1]?.heard && heard.partials.filter((partial) => partial.heard).length > 1 ? heard : voted;
};

export type Place = { wanted: number; courseIndex: number; stringIndex: number };

/** Distance in hertz from `hertz` to the nearest partial of a string; Infinity beyond its last. */
export const toSeries = ({ hertz: base, stiffness: { inharmonicity } }: Fit, hertz: number): number => {
  const n = Math.max(1, Math.round(hertz / base / Math.sqrt(1 + inharmonicity * (hertz / base) ** 2)));
  return n > seriesAtMost ? Infinity : Math.abs(base * stiffRatio(n, inharmonicity) - hertz);
};

/**
 * A string fitted anew by the partials at which it stands clear of every other string: of one of the same expected pitch by
 * `apartBins`, of any other by `clearBins`. Below, the two have run into one line whose pitch is neither's. Null where that is too little
 * to say that this string sounds at all.
 */
const toldApart = (one: Heard, twins: readonly Heard[], others: readonly Heard[], binHertz: number): Fit | null => {
  const clear = one.partials.map((partial, n) => {
    const apart =
      twins.every((twin) => {
        const same = twin.partials[n];
        return same?.heard === true && Math.abs(same.hertz - partial.hertz) > apartBins * binHertz;
      }) && others.every((other) => toSeries(other.fit, partial.hertz) > clearBins * binHertz);
    return { ...partial, heard: partial.heard && apart };
  });
  const count = clear.filter((partial) => partial.heard).length;
  const isFirst = clear[1]?.heard === true;
  const enough = twins.length > 0 ? (isFirst ? clearWithFirst : clearPartials) : isFirst ? 1 : leastLowPartials - 1;
  if (count < enough) return null;
  // A partial of another string may have misled B: what the clear ones say is then asked anew.
  const isClean = count === one.partials.filter((partial) => partial.heard).length;
  return fitSeries(clear, clear.length - 1, one.fit.hertz, isClean ? one.fit.stiffness : unknownStiffness);
};

/** Whether a line may be what the subtraction of a stronger one beside it left: a tenth of its leak. */
const isResidue = (line: Partial, lines: readonly Partial[], binHertz: number): boolean =>
  lines.some((other) => line.power < 0.1 * other.power * hannLeak(Math.abs(line.hertz - other.hertz) / binHertz));

export type HeardString = { readonly place: Place; readonly heard: Heard };
export type HeardStrings = {
  /** From the lowest. */
  readonly places: readonly Place[];
  readonly heardAt: readonly HeardString[];
  readonly readings: StringReading[][];
};

export const isUnison = (one: Place, other: Place): boolean => Math.abs(centsApart(one.wanted, other.wanted)) < unisonCents;

/** Which of the lines heard belong to which of the strings expected; every string is looked for within ±60 cents of where it is wanted. */
export const hearStrings = (heardLines: readonly Partial[], courses: readonly (readonly number[])[], binHertz: number): HeardStrings => {
  const lines = heardLines.filter((line) => !isResidue(line, heardLines, binHertz));
  const owned = new Set<Partial>();
  const readings: StringReading[][] = courses.map((strings) => strings.map(() => ({ refusal: 'unclear' })));
  const places = courses
    .flatMap((course, courseIndex) => course.map((wanted, stringIndex) => ({ wanted, courseIndex, stringIndex })))
    .sort((left, right) => left.wanted - right.wanted);
  const heardAt: HeardString[] = [];
  // From the lowest: its odd partials are its own, and tell where its even ones lie under an octave string's.
  for (const place of places) {
    const heard = fitString(lines, (line) => !owned.has(line), place.wanted);
    if (heard === null) {
      // Lines are there, but all of them belong to strings already read: unison or octave, not to be told apart.
      const taken = fitString(lines, (line) => owned.has(line), place.wanted);
      putReading(readings, place, { refusal: taken === null ? 'unclear' : 'two sounds' });
      continue;
    }
    for (const line of heard.claimed) owned.add(line);
    heardAt.push({ place, heard });
  }
  return { places, heardAt, readings };
};

export const putReading = (readings: StringReading[][], { courseIndex, stringIndex }: Place, reading: StringReading): void => {
  const course = readings[courseIndex];
  if (course !== undefined) course[stringIndex] = reading;
};

const heardOf = (list: readonly HeardString[]) => list.map((other) => other.heard);

/** Brings the pitches of strings that cannot be named into rising order, over the places that have one. */
const inRisingOrder = (readings: StringReading[][], places: readonly Place[]): void => {
  const heard = places.flatMap((place) => {
    const reading = readings[place.courseIndex]?.[place.stringIndex];
    return reading !== undefined && 'hertz' in reading ? [{ place, reading }] : [];
  });
  const rising = heard.map(({ reading }) => reading).sort((left, right) => left.hertz - right.hertz);
  for (const [index, { place }] of heard.entries()) putReading(readings, place, rising[index] ?? { refusal: 'unclear' });
};

/**
 * The pitches of the strings heard, each by the lines at which it stands clear of every other; strings of the same expected pitch come in
 * rising order. `binHertz`: one over the length of what was heard.
 */
export const readStrings = ({ places, heardAt, readings }: HeardStrings, binHertz: number): StringReading[][] => {
  const toldAt = heardAt.map(({ place, heard }) => {
    const others = heardAt.filter((other) => other.heard !== heard);
    const twins = others.filter((other) => isUnison(other.place, place));
    const strangers = others.filter((other) => !isUnison(other.place, place));
    const merged = twins.length + 1 < places.filter((other) => isUnison(other, place)).length;
    const fit = merged ? null : toldApart(heard, heardOf(twins), heardOf(strangers), binHertz);
    // Lines side by side pull at one another: a quarter of a bin of the second partial, where there is a twin.
    const pull = fit === null || twins.length === 0 ? 0 : (0.25 * binHertz * centsPerRatio) / (2 * fit.hertz);
    const sigmaCents = fit === null ? Infinity : sigmaScale * Math.hypot(fit.sigmaCents, fit.systematicCents, leastSigmaCents, pull);
    return { place, twins, fit: sigmaCents > sigmaAtMostCents ? null : fit, sigmaCents };
  });
  for (const { place, twins, fit, sigmaCents } of toldAt) {
    // Of two strings that ran into one, neither is known.
    const merged = twins.some((twin) => toldAt.some((other) => other.place === twin.place && other.fit === null));
    putReading(readings, place, fit === null || merged ? { refusal: 'two sounds' } : { hertz: fit.hertz, sigmaCents });
  }
  for (const place of places)
    inRisingOrder(
      readings,
      places.filter((other) => other.wanted === place.wanted),
    );
  return readings;
};
