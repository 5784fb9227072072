import { type Cents, cents, centsBetween, hertz } from '#shared/units/index.ts';
import type { Strings } from './match.ts';

/** A tuning that the instrument may be in, as its wanted pitches on this instrument. */
export type TuningCandidate = { readonly id: string; readonly wanted: Strings };

/** A tuning with what each string needs to get there, positive = tighten; the sum is what the ranking goes by. */
export type RankedTuning = {
  readonly id: string;
  readonly moves: readonly (readonly Cents[])[];
  readonly sumCents: Cents;
  readonly worstCents: Cents;
};

/**
 * What the instrument is in. `ranked`: the nearest tuning first; `present` says where each string was heard.
 * `could-be-several`: the first so many of `alike` fit as well as one another; `ask` is a course whose pluck would settle it.
 */
export type TuningAnswer =
  | { readonly kind: 'ranked'; readonly present: Strings; readonly tunings: readonly RankedTuning[] }
  | { readonly kind: 'could-be-several'; readonly alike: readonly string[]; readonly ask: number | null }
  | { readonly kind: 'unknown'; readonly reason: 'pluck-more' | 'too-many' | 'no-tuning-near' };

/** Strings of one pitch may have been plucked as one, within this, in cents. */
const alikeCents = 40;
/** A tuning is near where its strings are on average no further than this, in cents (two semitones and a little). */
const nearCents = 230;
/** Two readings of the instrument are as good as one another where they differ by less than this a string, in cents. */
const doubtCents = 12;
/** The log bears out what is heard where every string has moved as the others have since it was last heard, within this, in cents. */
const borneOutCents = 60;

/**
 * "What am I in?": every course plucked once, in any order, without names. Pitches are dealt out in order of height, which moves the strings least;
 * strings of one pitch may be heard as one. `present` (null = not known) tells
 * which string is which where all of them are where the log has them, or have gone off alike.
 * G4 C4 E♭4 A4 heard, among home and C minor → C minor, then home with course 2 up by 100 cents.
 * Throws RangeError where two candidates have other strings.
 */
export function whichTuning(
  heard: readonly number[],
  candidates: readonly TuningCandidate[],
  present: Strings | null = null,
): TuningAnswer {
  const count = candidates[0]?.wanted.flat().length ?? 0;
  if (candidates.some(({ wanted }) => wanted.flat().length !== count)) throw new RangeError('candidates differ in their strings');
  if (heard.length > count) return { kind: 'unknown', reason: 'too-many' };
  const readings = candidates
    .flatMap(({ id, wanted }) => {
      const dealt = deal(heard, wanted);
      return dealt === null ? [] : [{ id, wanted, ...dealt }];
    })
    .sort((a, b) => a.movedCents - b.movedCents);
  const [first] = readings;
  if (first === undefined) return { kind: 'unknown', reason: 'pluck-more' };
  if (first.movedCents > nearCents * count) return { kind: 'unknown', reason: 'no-tuning-near' };
  const known = present === null ? null : asLogged(heard, present);
  const alike = readings.filter((one) => one.movedCents - first.movedCents < doubtCents * count && !areSame(one.present, first.present));
  if (known === null && alike.length > 0) {
    const ask = first.present.findIndex((strings, course) => alike.some((one) => !areSame([strings], [one.present[course] ?? []])));
    return { kind: 'could-be-several', alike: [first, ...alike].map(({ id }) => id), ask: ask < 0 ? null : ask };
  }
  const here = known ?? first.present;
  const tunings = candidates.map(({ id, wanted }) => ranked(id, wanted, here)).sort((a, b) => a.sumCents - b.sumCents);
  return { kind: 'ranked', present: here, tunings };
}

function ranked(id: string, wanted: Strings, here: Strings): RankedTuning {
  const moves = wanted.map((strings, course) => strings.map((to, string) => apart(to, here[course]?.[string] ?? to)));
  const sizes = moves.flat().map(Math.abs);
  return { id, moves, sumCents: cents(sizes.reduce((sum, size) => sum + size, 0)), worstCents: cents(Math.max(0, ...sizes)) };
}

const apart = (to: number, from: number): Cents => centsBetween(hertz(to), hertz(from));

const areSame = (one: Strings, other: Strings): boolean =>
  one.every((strings, course) => strings.every((pitch, string) => Math.abs(apart(pitch, other[course]?.[string] ?? pitch)) < 1));

/** Where the strings are, if they are where the log has them, all shifted alike by what heat or a journey does; else null. */
function asLogged(heard: readonly number[], present: Strings): Strings | null {
  const dealt = deal(heard, present);
  if (dealt === null) return null;
  const shifts = dealt.present.flatMap((strings, course) =>
    strings.map((pitch, string) => apart(pitch, present[course]?.[string] ?? pitch)),
  );
  const middle = shifts.toSorted((a, b) => a - b)[Math.floor(shifts.length / 2)] ?? 0;
  return shifts.every((shift) => Math.abs(shift - middle) <= borneOutCents) ? dealt.present : null;
}

type Dealt = { readonly present: Strings; readonly movedCents: number };

/**
 * Deals pitches out to the strings of a tuning, both in order of height, each pitch to at least one string, and one pitch to several only where they
 * are wanted alike: the cheapest way by dynamic programming. Null where that is impossible.
 */
function deal(heard: readonly number[], wanted: Strings): Dealt | null {
  const pitches = heard.toSorted((a, b) => a - b);
  const strings = wanted
    .flatMap((course, index) => course.map((pitch, string) => ({ course: index, string, pitch })))
    .sort((a, b) => a.pitch - b.pitch);
  // best[j]: the cheapest way to have dealt the strings so far with pitch j dealt last.
  let best: readonly (Way | null)[] = pitches.map(() => null);
  for (const [index, { pitch }] of strings.entries()) {
    const below = strings[index - 1]?.pitch ?? 0;
    const isAlike = index > 0 && Math.abs(apart(pitch, below)) <= alikeCents;
    const before = best;
    best = pitches.map((heardAt, j) => {
      const fresh = index === 0 ? (j === 0 ? nothingDealt : null) : (before[j - 1] ?? null);
      const again = isAlike ? (before[j] ?? null) : null;
      const from = again !== null && (fresh === null || again.movedCents < fresh.movedCents) ? again : fresh;
      return from === null ? null : { movedCents: from.movedCents + Math.abs(apart(pitch, heardAt)), dealt: [...from.dealt, heardAt] };
    });
  }
  const whole = best.at(-1) ?? null;
  if (whole === null) return null;
  const of = (course: number, string: number): number =>
    whole.dealt[strings.findIndex((one) => one.course === course && one.string === string)] ?? Number.NaN;
  return { movedCents: whole.movedCents, present: wanted.map((course, index) => course.map((_, string) => of(index, string))) };
}

type Way = { readonly movedCents: number; readonly dealt: readonly number[] };
const nothingDealt: Way = { movedCents: 0, dealt: [] };
