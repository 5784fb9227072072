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
/** Two ways to deal the pitches out are the same where no string differs by more than this, in cents: it would be turned alike. */
const sameCents = 40;
/** Pitches further apart than this are not taken for one another's strings, in cents. */
const swapCents = 250;
/** So sure it must be which pitch is whose; else a course is asked for by name. */
const surely = 0.985;
/** A course asked for by name answers with the pitch that the dealing gave it, within this, in cents. */
const namedCents = 15;
/** The log bears out what is heard where every string has moved as the others have since it was last heard, within this, in cents. */
const borneOutCents = 60;

/** A course that was asked for by name, and the pitch it gave. */
export type Named = { readonly course: number; readonly hertz: number };

/**
 * "What am I in?": every course plucked once, in any order, without names. Pitches are dealt out in order of height, and next to that with two
 * neighbours changed over, for every candidate; how well each dealing fits tells whose they are, or that it cannot be told. Strings of one pitch may be
 * heard as one. `present` (null = not known) tells which string is which where all of them are where the log has them, or have gone off alike; `named`
 * are courses that were asked for since.
 * G4 C4 E♭4 A4 heard, among home and C minor → C minor, then home with course 2 up by 100 cents.
 * Throws RangeError where two candidates have other strings.
 */
export function whichTuning(
  heard: readonly number[],
  candidates: readonly TuningCandidate[],
  present: Strings | null = null,
  named: readonly Named[] = [],
): TuningAnswer {
  const count = candidates[0]?.wanted.flat().length ?? 0;
  if (candidates.some(({ wanted }) => wanted.flat().length !== count)) throw new RangeError('candidates differ in their strings');
  if (heard.length > count) return { kind: 'unknown', reason: 'too-many' };
  const dealt = candidates.flatMap(({ id, wanted }) => deal(heard, wanted).map((one) => ({ id, ...one })));
  if (dealt.length === 0) return { kind: 'unknown', reason: 'pluck-more' };
  const near = dealt
    .filter((one) => one.movedCents <= nearCents * count && isNamed(one.present, named))
    .map((one) => ({ ...one, likelihood: likelihoodOf(one.moves) }));
  const known = present === null || named.length > 0 ? null : asLogged(heard, present);
  if (near.length === 0 && known === null) return { kind: 'unknown', reason: 'no-tuning-near' };
  const here = known ?? surest(near);
  if (here === null) return toAsk(near);
  const tunings = candidates.map(({ id, wanted }) => ranked(id, wanted, here)).sort((a, b) => a.sumCents - b.sumCents);
  return { kind: 'ranked', present: here, tunings };
}

/** Where the strings are, if all dealings that fit worth speaking of agree; else null. */
function surest(dealt: readonly Weighed[]): Strings | null {
  const best = likeliest(dealt);
  const all = dealt.reduce((sum, { likelihood }) => sum + likelihood, 0);
  const same = dealt.filter((one) => areSame(one.present, best.present)).reduce((sum, { likelihood }) => sum + likelihood, 0);
  return same >= surely * all ? best.present : null;
}

/** What the dealings differ in: the candidates, the likeliest first, and the first course that tells the two likeliest apart. */
function toAsk(dealt: readonly (Weighed & { readonly id: string })[]): TuningAnswer {
  const best = likeliest(dealt);
  const others = dealt.filter((one) => !areSame(one.present, best.present)).toSorted((a, b) => b.likelihood - a.likelihood);
  const [rival] = others;
  const ask = best.present.findIndex((strings, course) => rival !== undefined && !areSame([strings], [rival.present[course] ?? []]));
  return { kind: 'could-be-several', alike: [...new Set([best, ...others].map(({ id }) => id))], ask: ask < 0 ? null : ask };
}

const likeliest = <One extends Weighed>(dealt: readonly One[]): One => dealt.reduce((a, b) => (b.likelihood > a.likelihood ? b : a));

const isNamed = (present: Strings, named: readonly Named[]): boolean =>
  named.every(({ course, hertz: at }) => present[course]?.some((one) => Math.abs(apart(one, at)) < namedCents));

function ranked(id: string, wanted: Strings, here: Strings): RankedTuning {
  const moves = wanted.map((strings, course) => strings.map((to, string) => apart(to, here[course]?.[string] ?? to)));
  const sizes = moves.flat().map(Math.abs);
  return { id, moves, sumCents: cents(sizes.reduce((sum, size) => sum + size, 0)), worstCents: cents(Math.max(0, ...sizes)) };
}

const apart = (to: number, from: number): Cents => centsBetween(hertz(to), hertz(from));

const areSame = (one: Strings, other: Strings): boolean =>
  one.every((strings, course) => strings.every((pitch, string) => Math.abs(apart(pitch, other[course]?.[string] ?? pitch)) < sameCents));

/** Where the strings are, if they are surely where the log has them, all shifted alike by what heat or a journey does; else null. */
function asLogged(heard: readonly number[], present: Strings): Strings | null {
  const dealt = deal(heard, present).map((one) => ({ ...one, likelihood: likelihoodOf(one.moves) }));
  const here = dealt.length === 0 ? null : surest(dealt);
  if (here === null) return null;
  const shifts = here.flatMap((strings, course) => strings.map((pitch, string) => apart(pitch, present[course]?.[string] ?? pitch)));
  const middle = middleOf(shifts);
  return shifts.every((shift) => Math.abs(shift - middle) <= borneOutCents) ? here : null;
}

const middleOf = (values: readonly number[]): number => values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;

type Dealt = { readonly present: Strings; readonly movedCents: number; readonly moves: readonly number[] };
type Weighed = Dealt & { readonly likelihood: number };

/**
 * Deals pitches out to the strings of a tuning, both in order of height, each pitch to at least one string, and one pitch to several only where they
 * are wanted alike: the cheapest way by dynamic programming; and that way with two neighbours changed over. Empty where it is impossible.
 */
function deal(heard: readonly number[], wanted: Strings): readonly Dealt[] {
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
  const inOrder = best.at(-1)?.dealt;
  if (inOrder === undefined) return [];
  return [inOrder, ...changedOver(inOrder)].map((dealt) => {
    const moves = strings.map(({ pitch }, place) => apart(pitch, dealt[place] ?? pitch));
    const of = (course: number, string: number): number =>
      dealt[strings.findIndex((one) => one.course === course && one.string === string)] ?? Number.NaN;
    return {
      present: wanted.map((course, index) => course.map((_, string) => of(index, string))),
      movedCents: moves.reduce((sum, move) => sum + Math.abs(move), 0),
      moves,
    };
  });
}

type Way = { readonly movedCents: number; readonly dealt: readonly number[] };
const nothingDealt: Way = { movedCents: 0, dealt: [] };

/** The same with two neighbours in height changed over, for every two that are not far apart. */
const changedOver = (dealt: readonly number[]): readonly (readonly number[])[] =>
  dealt.flatMap((low, place) => {
    const high = dealt[place + 1];
    if (high === undefined || high === low || apart(high, low) > swapCents) return [];
    return [dealt.map((pitch, other) => (other === place ? high : other === place + 1 ? low : pitch))];
  });

// How an instrument may be off a tuning (assumed): all strings alike by up to two semitones and a little, or not at all; each by itself as well, by a
// scatter that is not known; and now and then one string was turned and may be anywhere near.
const scatters = [4, 8, 16, 32, 64, 128];
/** How likely an instrument is to be off as a whole, by just so much within a few cents; and a string to have been turned by itself. */
const shiftedShare = 0.1;
const turnedShare = 0.1;
/** How far a string that was turned by itself may be, either way, in cents. */
const turnedCents = 300;

/** How likely strings are to need these moves, up to a factor. */
function likelihoodOf(moves: readonly number[]): number {
  const alone = (shift: number): number =>
    scatters.reduce((total, scatter) => {
      const left = (1 - turnedShare) / (scatter * Math.sqrt(2 * Math.PI));
      const each = moves.map((move) => left * Math.exp(-((move - shift) ** 2) / (2 * scatter * scatter)) + turnedShare / (2 * turnedCents));
      return total + each.reduce((product, one) => product * one, 1);
    }, 0);
  return alone(0) + shiftedShare * alone(middleOf(moves));
}
