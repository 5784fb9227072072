import { isNewPluck, matchAs, type MatchContext, matchFrame, type Strings } from '#shared/matching/index.ts';
import { centsBetween, hertz } from '#shared/units/index.ts';
import { type Frame, hearSteady, type Steady } from './steady.ts';

/** One trusted measurement of one string from one pluck. */
export type PluckReading = {
  readonly course: number;
  readonly string: number;
  readonly atSeconds: number;
  readonly hertz: number;
  readonly sigmaCents: number;
};

/** The pluck that sounds: its string; of a course null it could be several courses'. */
type Pluck = Steady & { readonly course: number | null; readonly string: number };

/**
 * An instrument being checked: where its strings are and are wanted, per course and string, in hertz; and the courses of one pitch that are to be plucked
 * by name, one after the other, the next one first.
 */
export type Check = {
  readonly present: Strings;
  readonly wanted: Strings;
  readonly pluck: Pluck | null;
  readonly asked: readonly number[];
};

/** Courses that stand within this of a sound may be its own, in cents: nobody turns a peg meanwhile. */
const standingCents = 35;

/** Begins a check. */
export const startCheck = (present: Strings, wanted: Strings): Check => ({ present, wanted, pluck: null, asked: [] });

/**
 * Takes one frame. Gives a reading once a pluck, when its pitch has stood still for long enough; frames that belong to no course are passed over. Where
 * a pluck could be of several courses, these are asked for by name: the very next pluck is believed to be the first of `asked`.
 */
export function hearPluck(check: Check, frame: Frame): { readonly check: Check; readonly reading: PluckReading | null } {
  const courses = frame.steady ? coursesOf(check, frame.hertz) : [];
  if (courses.length === 0) return { check, reading: null };
  const [named = null] = check.asked;
  const before = check.pluck;
  const isSame = before !== null && !isNewPluck(before, frame) && (before.course === null || courses.includes(before.course));
  const course = isSame ? before.course : courseMeant(courses, named);
  const string = course === null ? 0 : matchAs(frame.hertz, { ...check, asked: course }).string;
  const { pluck, pitch } = hearSteady(isSame && before.string === string ? before : null, frame);
  const next = { ...check, pluck: { ...pluck, course, string } };
  if (pitch === null) return { check: next, reading: null };
  if (course === null) return { check: { ...next, asked: courses }, reading: null };
  const asked = course === named ? check.asked.slice(1) : [];
  return { check: { ...next, asked }, reading: { course, string, atSeconds: frame.atSeconds, ...pitch } };
}

/** Whose a new pluck is: the only course that it can be, else the one that was asked for by name, else nobody's. */
function courseMeant(courses: readonly number[], named: number | null): number | null {
  const [only = null, another] = courses;
  if (another === undefined) return only;
  return named !== null && courses.includes(named) ? named : null;
}

/** The courses that a pitch may belong to, from the player's eye down; empty where it is nobody's. */
function coursesOf({ present, wanted }: Pick<MatchContext, 'present' | 'wanted'>, heardHertz: number): readonly number[] {
  const match = matchFrame(heardHertz, { present, wanted, asked: null });
  if (match.kind === 'match') return [match.course];
  const stands = (course: number): boolean =>
    (present[course] ?? []).some((at) => Math.abs(centsBetween(hertz(heardHertz), hertz(at))) <= standingCents);
  return match.reason === 'could-be-several' ? match.candidates.filter(stands).toSorted((a, b) => a - b) : [];
}
