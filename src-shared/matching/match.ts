import { cents, type Cents, centsBetween, hertz } from '#shared/units/index.ts';

/** Frequencies in hertz per course and per string, from the player's eye down. */
export type Strings = readonly (readonly number[])[];

export type MatchContext = {
  /** Where each string is, as far as the log and this session know. */
  readonly present: Strings;
  /** Where each string is wanted. */
  readonly wanted: Strings;
  /** Place of the course that the player was asked to pluck, or null for any. */
  readonly asked: number | null;
};

/** The course that sounds, with how far its string is from wanted; or why that cannot be told. `certainty` is a share, 0 to 1. */
export type Match =
  | { readonly kind: 'match'; readonly course: number; readonly string: number; readonly deviationCents: Cents; readonly certainty: number }
  | {
      readonly kind: 'unknown';
      readonly reason: 'no-string-near' | 'an-octave-off' | 'could-be-several';
      readonly candidates: readonly number[];
    };

/** How far past its way from present to wanted a string may be and still be taken for itself, in cents (common practice: a semitone and a half). */
const reachCents = 150;
/** The same for the course asked for, whose peg may have been turned the wrong way or left far off. */
const askedReachCents = 700;
/** A string that is where it was last heard is within this many cents of there. */
const settledCents = 35;

type Candidate = { readonly course: number; readonly string: number; readonly outsideCents: number; readonly fromPresentCents: number };

/**
 * Tells which course a pitch belongs to. A string being retuned may be anywhere between its present and its wanted pitch, and some way past either.
 * The course asked for is believed unless another string that needs no work lies right there and the asked one cannot.
 * C4 asked to go to B♭3, heard at B3 → course of the C string, +100 cents.
 */
export function matchFrame(heardHertz: number, context: MatchContext): Match {
  const heard = hertz(heardHertz);
  const candidates = candidatesFor(heard, context);
  const { asked } = context;
  const best = candidates[0];
  const askedOne = candidates.find(({ course }) => course === asked);
  if (askedOne !== undefined && askedOne.outsideCents <= askedReachCents && !(best !== undefined && isPlainlyAnother(best, askedOne))) {
    return found(askedOne, heard, context, askedOne.outsideCents <= reachCents ? 0.98 : 0.8);
  }
  const near = candidates.filter(({ outsideCents }) => outsideCents <= reachCents);
  const [first, second] = near;
  if (first === undefined) return nothingNear(heard, context);
  if (second === undefined || first.outsideCents + settledCents < second.outsideCents) return found(first, heard, context, 0.95);
  const here = near.filter(({ fromPresentCents }) => Math.abs(fromPresentCents) <= settledCents);
  const [only, another] = here;
  if (only !== undefined && another === undefined) return found(only, heard, context, 0.85);
  const alike = near.filter(({ outsideCents }) => outsideCents < first.outsideCents + settledCents).map(({ course }) => course);
  return { kind: 'unknown', reason: 'could-be-several', candidates: [...new Set(alike)] };
}

/** Every course by its likeliest string, the nearest course first. */
function candidatesFor(heard: ReturnType<typeof hertz>, { present, wanted }: MatchContext): readonly Candidate[] {
  return present
    .map((strings, course) =>
      strings
        .map((from, string): Candidate => {
          const fromPresentCents = centsBetween(heard, hertz(from));
          const fromWantedCents = centsBetween(heard, hertz(wanted[course]?.[string] ?? from));
          const isBetween = Math.sign(fromPresentCents) !== Math.sign(fromWantedCents);
          const outsideCents = isBetween ? 0 : Math.min(Math.abs(fromPresentCents), Math.abs(fromWantedCents));
          return { course, string, outsideCents, fromPresentCents };
        })
        .reduce((a, b) => (b.outsideCents < a.outsideCents ? b : a)),
    )
    .sort((a, b) => a.outsideCents - b.outsideCents);
}

/** Whether another string that sits right where it was last heard explains the sound, and the asked one would have to be far off. */
const isPlainlyAnother = (best: Candidate, asked: Candidate): boolean =>
  best.course !== asked.course && Math.abs(best.fromPresentCents) <= settledCents && asked.outsideCents > reachCents;

function found(
  { course, string }: Candidate,
  heard: ReturnType<typeof hertz>,
  { wanted, present }: MatchContext,
  certainty: number,
): Match {
  const target = wanted[course]?.[string] ?? present[course]?.[string];
  if (target === undefined) throw new RangeError(`no string ${string} on course ${course}`);
  return { kind: 'match', course, string, deviationCents: centsBetween(heard, hertz(target)), certainty };
}

/** Nothing is near: is it an octave above or below a string (a harmonic, or the octave taken for the note)? */
function nothingNear(heard: ReturnType<typeof hertz>, context: MatchContext): Match {
  const octaveApart = context.present.flatMap((strings, course) => {
    const wanted = context.wanted[course] ?? strings;
    const all = [...strings, ...wanted];
    return all.some((pitch) => Math.abs(Math.abs(centsBetween(heard, hertz(pitch))) - cents(1200)) <= settledCents) ? [course] : [];
  });
  return { kind: 'unknown', reason: octaveApart.length > 0 ? 'an-octave-off' : 'no-string-near', candidates: octaveApart };
}
