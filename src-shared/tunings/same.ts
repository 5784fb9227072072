import { semitonesBetween } from '#shared/music/index.ts';
import { homeShape } from './carry.ts';
import type { Tuning } from './tuning.ts';

type Compared = Pick<Tuning, 'courses' | 'home'>;

/** How far each course is from home in semitones; where its strings move apart, each of them. */
const steps = (tuning: Compared): readonly string[] =>
  tuning.home.map((strings, course) => {
    const each = strings.map((from, string) => semitonesBetween(from, tuning.courses[course]?.pitches[string] ?? from));
    const [first] = each;
    return each.every((step) => step === first) ? String(first) : each.join(',');
  });

/** What two rows have in common that are one tuning: the shape of the homes, the moves, the offsets. Spelling, name and tags don't count. */
const likenessKey = (tuning: Compared): string =>
  [
    homeShape(tuning.home) ?? tuning.home.join(' | '),
    steps(tuning).join(' '),
    tuning.courses.map(({ offsetCents }) => offsetCents).join(' '),
  ].join(' / ');

/**
 * Whether two rows are one tuning: on every instrument that takes them they give the same sounding pitches, whatever home each was written for.
 * `G4 C4 Eb4 A4` for a home of `G4 C4 E4 A4`, and `D3 G3 A#3 E4` for `D3 G3 B3 E4` → true.
 */
export const sameTuning = (one: Compared, other: Compared): boolean => likenessKey(one) === likenessKey(other);

/** Rows that are one tuning, in groups of two or more, in the order of the list. One pass, for libraries of thousands. */
export const duplicates = <Row extends Compared>(tunings: readonly Row[]): readonly (readonly Row[])[] =>
  [...Map.groupBy(tunings, likenessKey).values()].filter((group) => group.length > 1);

/** Where a tuning lies among those with the same chord shapes and offsets: `family` is alike for them all, `semitones` how far its first course is from home. */
export type Lying = { readonly family: string; readonly semitones: number };

/** Null where the strings of a course are not octaves of one another, or move apart. Open D on a ukulele → 2 semitones, in the family of open C. */
export function lyingOf(tuning: Compared): Lying | null {
  const shape = homeShape(tuning.home);
  const each = steps(tuning).map(Number);
  const [first = Number.NaN] = each;
  if (shape === null || !each.every(Number.isInteger)) return null;
  const offsets = tuning.courses.map(({ offsetCents }) => offsetCents);
  return { family: [shape, each.map((step) => step - first).join(' '), offsets.join(' ')].join(' / '), semitones: first };
}

/**
 * By how many semitones one tuning lies above another that has the same chord shapes and offsets; 0 where they are one tuning, null where the shapes
 * are others. Open D over open C on a ukulele → 2.
 */
export function semitonesApart(one: Compared, other: Compared): number | null {
  const [ours, theirs] = [lyingOf(one), lyingOf(other)];
  return ours !== null && ours.family === theirs?.family ? ours.semitones - theirs.semitones : null;
}
