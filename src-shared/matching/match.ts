import { cents, type Cents, centsBetween, type Hertz, hertz } from '#shared/units/index.ts';
import { soundsFretted } from './fretted.ts';

/** Frequencies in hertz per course and per string, from the player's eye down. */
export type Strings = readonly (readonly number[])[];

export type MatchContext = {
  /** Where each string is, as far as the log and this session know. */
  readonly present: Strings;
  /** Where each string is wanted. */
  readonly wanted: Strings;
  /** Place of the course that the player was asked to pluck, or null for any. */
  readonly asked: number | null;
  /** Which string of that course, where it has several; null or left out = any of them. */
  readonly askedString?: number | null;
  /** Per course, whether it was heard since the log was: then it stands where `present` says, but for its peg. Left out = none was. */
  readonly heard?: readonly boolean[];
};

/**
 * The course that sounds, with how far its string is from wanted; or why that cannot be told. `certainty` is a share, 0 to 1; below
 * `surelyMatched` the same course should be plucked once more before it is believed, and `others` are the courses it may be instead (itself: another string of it).
 */
export type Match =
  | {
      readonly kind: 'match';
      readonly course: number;
      readonly string: number;
      readonly deviationCents: Cents;
      readonly certainty: number;
      readonly others: readonly number[];
    }
  | {
      readonly kind: 'unknown';
      readonly reason: 'no-string-near' | 'an-octave-off' | 'could-be-several';
      readonly candidates: readonly number[];
    };

/**
 * How far past its way from present to wanted a string may be and still be taken for itself, in cents: a semitone and a half (common practice),
 * and what pitch and log err by.
 */
const reachCents = 158;
/** The same for the course asked for, whose peg may have been turned the wrong way, or of which the log is out of date. */
const askedReachCents = 1450;
/** A string that is where it was last heard is within this many cents of there; one that was heard just now within so few (what other pegs do to it). */
const settledCents = 35;
const heardCents = 18;
/** Two strings of a course nearer to one another than this cannot be told apart by one pitch, in cents. */
const pairCents = 20;
const octave = 1200;
/** From this certainty on, a match is acted on at once. */
export const surelyMatched = 0.75;

type Candidate = {
  readonly course: number;
  readonly string: number;
  /** How far the sound lies outside the string's way from present to wanted. */
  readonly outsideCents: number;
  readonly fromPresentCents: number;
};

/**
 * Tells which course a pitch belongs to. A string being retuned may be anywhere between its present and its wanted pitch, and some way past either.
 * The course asked for is believed on its way; but in doubt where it is not where it was last heard and another string stands right there, or where the
 * sound lies off its way altogether (a fretted note, another instrument, a log that is wrong). Off its way where another string stands, or an octave
 * off, it is not believed; it is that other one where the one asked for was heard before, else neither is guessed.
 * With none asked for, the only course in reach is meant; where several are, none is guessed.
 * C4 asked to go to B♭3, heard at B3 → course of the C string, +100 cents.
 */
export function matchFrame(heardHertz: number, context: MatchContext): Match {
  const heard = hertz(heardHertz);
  const candidates = candidatesFor(heard, context);
  const near = candidates.filter(({ outsideCents }) => outsideCents < reachCents);
  const asked = candidates.find(({ course }) => course === context.asked);
  if (asked !== undefined) return matchAsked(heard, context, asked, near);
  const [only, another] = near;
  if (only === undefined) return nothingNear(heard, context);
  return another === undefined
    ? found(only, heard, context, 0.95)
    : { kind: 'unknown', reason: 'could-be-several', candidates: near.map(({ course }) => course) };
}

/**
 * The same where the course is known already, because the sound goes on from one that was matched: only which of its strings, and how far off.
 * Throws RangeError where none is asked for.
 */
export function matchAs(heardHertz: number, context: MatchContext): Extract<Match, { kind: 'match' }> {
  const heard = hertz(heardHertz);
  const asked = candidatesFor(heard, context).find(({ course }) => course === context.asked);
  if (asked === undefined) throw new RangeError(`no course ${context.asked} of ${context.present.length}`);
  return found(asked, heard, context, 0.98);
}

function matchAsked(heard: Hertz, context: MatchContext, asked: Candidate, near: readonly Candidate[]): Match {
  const standing = near.filter((one) => one.course !== asked.course && standsHere(one, context));
  const [other, another] = standing;
  const others = standing.map(({ course }) => course);
  if (asked.outsideCents < reachCents) {
    const isAtRest = other === undefined || isAtHome(asked, other.fromPresentCents);
    if (!isAtRest || isFretted(asked, heard, context)) return found(asked, heard, context, 0.6, others);
    const isSibling = siblingsOf(asked, heard, context).some((off) => Math.abs(off) <= settledCents && !isAtHome(asked, off));
    return isSibling
      ? found(asked, heard, context, 0.6, [asked.course])
      : found(asked, heard, context, other === undefined ? 0.98 : 0.95, others);
  }
  if (other !== undefined && another === undefined && context.heard?.[asked.course] === true) return found(other, heard, context, 0.85);
  if (other !== undefined) return { kind: 'unknown', reason: 'could-be-several', candidates: [asked.course, ...others] };
  if (isOctaveOff(heard, asked, context)) return { kind: 'unknown', reason: 'an-octave-off', candidates: [asked.course] };
  return asked.outsideCents <= askedReachCents ? found(asked, heard, context, 0.6) : nothingNear(heard, context);
}

const standsHere = ({ course, fromPresentCents }: Candidate, context: MatchContext): boolean =>
  Math.abs(fromPresentCents) <= (context.heard?.[course] === true ? heardCents : settledCents);

/** Whether a string is as good as where it was last heard, though another stands so many cents from here. */
const isAtHome = ({ fromPresentCents }: Candidate, otherCents: number): boolean =>
  Math.abs(fromPresentCents) <= Math.max(settledCents, 2 * Math.abs(otherCents));

/** How far the other strings of a course stand from here, in cents. */
const siblingsOf = ({ course, string }: Candidate, heard: Hertz, { present }: MatchContext): readonly number[] =>
  (present[course] ?? []).flatMap((pitch, other) => (other === string ? [] : [centsBetween(heard, hertz(pitch))]));

/** Whole semitones above where the string was, and not on its way: a fret rather than a peg. */
const isFretted = ({ course, string, outsideCents }: Candidate, heard: Hertz, { present }: MatchContext): boolean =>
  outsideCents > settledCents && soundsFretted(heard, present[course]?.[string] ?? heard);

/** Every course by its likeliest string, the nearest course first. */
const candidatesFor = (heard: Hertz, context: MatchContext): readonly Candidate[] =>
  context.present
    .map((strings, course) =>
      likeliest(
        strings.map((from, string) => candidateOf(heard, context, course, string, from)),
        course,
        context,
      ),
    )
    .sort((a, b) => a.outsideCents - b.outsideCents);

function candidateOf(heard: Hertz, { wanted }: MatchContext, course: number, string: number, from: number): Candidate {
  const fromPresentCents = centsBetween(heard, hertz(from));
  const fromWantedCents = centsBetween(heard, hertz(wanted[course]?.[string] ?? from));
  const isBetween = Math.sign(fromPresentCents) !== Math.sign(fromWantedCents);
  const outsideCents = isBetween ? 0 : Math.min(Math.abs(fromPresentCents), Math.abs(fromWantedCents));
  return { course, string, outsideCents, fromPresentCents };
}

/** Of a double course the nearer string; the one asked for, if it is as near or the sound lies on its way. */
function likeliest(strings: readonly Candidate[], course: number, { asked, askedString = null }: MatchContext): Candidate {
  const nearest = strings.reduce((a, b) => (distance(b) < distance(a) ? b : a));
  const wished = course === asked && askedString !== null ? strings[askedString] : undefined;
  return wished !== undefined && (wished.outsideCents < reachCents || distance(wished) < distance(nearest) + pairCents) ? wished : nearest;
}

const distance = ({ outsideCents, fromPresentCents }: Candidate): number => outsideCents + Math.abs(fromPresentCents) / 1000;

function found(
  { course, string }: Candidate,
  heard: Hertz,
  { wanted, present }: MatchContext,
  certainty: number,
  others: readonly number[] = [],
): Extract<Match, { kind: 'match' }> {
  const target = wanted[course]?.[string] ?? present[course]?.[string];
  if (target === undefined) throw new RangeError(`no string ${string} on course ${course}`);
  return { kind: 'match', course, string, deviationCents: centsBetween(heard, hertz(target)), certainty, others };
}

/** Nothing is near: is it an octave above or below a string (a harmonic, or the octave taken for the note)? */
function nothingNear(heard: Hertz, context: MatchContext): Match {
  const apart = context.present.flatMap((_, course) => (isOctaveOff(heard, { course }, context) ? [course] : []));
  return { kind: 'unknown', reason: apart.length > 0 ? 'an-octave-off' : 'no-string-near', candidates: apart };
}

const isOctaveOff = (heard: Hertz, { course }: Pick<Candidate, 'course'>, { present, wanted }: MatchContext): boolean =>
  [...(present[course] ?? []), ...(wanted[course] ?? [])].some(
    (pitch) => Math.abs(Math.abs(centsBetween(heard, hertz(pitch))) - cents(octave)) <= settledCents,
  );
