import type { Overview } from '#shared/contract/index.ts';
import { courseNumber } from '#shared/instruments/index.ts';
import { type SpelledPitch, spellTogether } from '#shared/music/index.ts';
import { cautionShare } from '#shared/tension/index.ts';
import { centsBetween, hertz, hertzToMidi } from '#shared/units/index.ts';
import { pullAt } from '../../stores/pull.ts';
import type { Way } from '../../stores/plan.ts';
import { courseText, listed } from '../../ui/words.ts';

/** The wanted pitches with a capo: at which fret, what the open strings are then tuned to, and how far each course goes to it, in cents. */
export type WithCapo = {
  readonly fret: number;
  readonly pitches: readonly (readonly SpelledPitch[])[];
  readonly moves: readonly number[];
};

/** A capo further up leaves too little of the neck (own choice). */
const highestFret = 5;
/** A course nearer than this needs no more than a touch, in cents. */
const stayCents = 50;

/**
 * The capo with which the fewest courses are turned, no string comes near breaking and none goes slack; null where there is none, and where courses
 * end at frets of their own, as on a banjo: a capo misses those. A4 D4 F♯4 B4 on a tenor at home → the 2nd fret, and nothing to turn.
 */
export function withCapo(overview: Overview, way: Way, referenceHertz: number): WithCapo | null {
  const { instrument, stringSet } = overview;
  if (stringSet.courses.some(({ scaleLengthMillimetres }) => scaleLengthMillimetres !== undefined)) return null;
  const frets = Array.from({ length: Math.min(highestFret, instrument.frets) }, (_, index) => index + 1);
  const turned = ({ moves }: WithCapo) => moves.filter((cents) => Math.abs(cents) > stayCents).length;
  const [best] = frets.flatMap((fret) => capoAt(overview, way, fret, referenceHertz) ?? []).toSorted((a, b) => turned(a) - turned(b));
  return best ?? null;
}

/** A capo at one fret; null where a string would be slack or near breaking with it. */
function capoAt(overview: Overview, { to, present }: Way, fret: number, referenceHertz: number): WithCapo | null {
  const open = to.hertz.map((strings) => strings.map((wanted) => wanted / 2 ** (fret / 12)));
  if (!open.every((strings, course) => strings.every((one, string) => isEasy(overview, course, string, one)))) return null;
  const spelled = spellTogether(open.flat().map((one) => Math.round(hertzToMidi(hertz(one), hertz(referenceHertz)))));
  const pitches = open.map((strings, course) => {
    const from = open.slice(0, course).flat().length;
    return spelled.slice(from, from + strings.length);
  });
  const moves = open.map((strings, course) => centsBetween(hertz(strings[0] ?? 1), hertz(present[course]?.[0] ?? strings[0] ?? 1)));
  return { fret, pitches, moves };
}

function isEasy(overview: Overview, course: number, string: number, wanted: number): boolean {
  const { breakShare, slackIn } = pullAt(overview, course, string, wanted);
  return (breakShare ?? 0) <= cautionShare && (slackIn ?? 1) > 0;
}

const nth = ['1st', '2nd', '3rd', '4th', '5th'] as const;

/** `D4 A4 D5 F♯4 D5 with a capo at the 2nd fret. Courses 5 and 4 loosen, 3 and 1 stay.` */
export function capoWords({ fret, pitches, moves }: WithCapo): string {
  const open = pitches.map((strings) => courseText([...new Set(strings)])).join(' ');
  const where = `${open} with a capo at the ${nth[fret - 1] ?? `${fret}th`} fret.`;
  const numbers = (belongs: (cents: number) => boolean) =>
    moves.flatMap((cents, course) => (belongs(cents) ? [courseNumber(course, moves.length)] : []));
  const groups = [
    { verb: 'loosen', courses: numbers((cents) => cents < -stayCents) },
    { verb: 'tighten', courses: numbers((cents) => cents > stayCents) },
    { verb: 'stay', courses: numbers((cents) => Math.abs(cents) <= stayCents) },
  ].filter(({ courses }) => courses.length > 0);
  const [only] = groups;
  if (groups.length === 1 && only !== undefined) return `${where} Every course ${only.verb}s${only.verb === 'stay' ? ' where it is' : ''}.`;
  const parts = groups.map(({ verb, courses }, index) => {
    const name = index > 0 ? '' : courses.length === 1 ? 'Course ' : 'Courses ';
    return `${name}${listed(courses)} ${verb}${courses.length === 1 ? 's' : ''}`;
  });
  return `${where} ${parts.join(', ')}.`;
}
