import { courseNumber } from '#shared/instruments/index.ts';
import { pitchMidi, semitonesBetween, type SpelledPitch, writtenPitch } from '#shared/music/index.ts';
import { type Move, movesBetween, type OpenPitches } from '#shared/tunings/index.ts';

/** Where the pitch of a course is found: at a fret of one that is right already, or, where no fret gives it, from outside the instrument. */
export type ByEarWay =
  | {
      readonly kind: 'match';
      /** The course that is right already, from the player's eye, from 0. */
      readonly reference: number;
      /** Which of the two is held down at `fret`; 0 = both sound open. */
      readonly held: 'reference' | 'moved';
      readonly fret: number;
      /** Octaves that the moved course then lies above the reference; 0 = the two sound alike. */
      readonly octaves: -1 | 0 | 1;
    }
  | { readonly kind: 'outside' };

/** One course to bring to its pitch. `course` counts from the player's eye, from 0. */
export type ByEarStep = {
  readonly course: number;
  readonly to: SpelledPitch;
  readonly way: ByEarWay;
  readonly sentence: string;
};

/** Frets that are easy to hold while the other hand turns a peg (own choice). */
const easyFret = 12;

/**
 * How to get from one tuning to another without a tuner: every course is matched with one that is right already, because it stays or because it
 * was done before. A course whose pitch no fret gives is matched an octave away; where not even that can be had, its pitch comes from outside.
 * Lower course 2 of `G4 C4 E4 A4` a semitone → “Lower course 2 until it matches course 3 at the 3rd fret.”
 * Throws RangeError where the two tunings have not the same courses, or `frets` is not a whole number from 0 on.
 */
export function byEarSheet(from: OpenPitches, to: OpenPitches, frets: number): readonly ByEarStep[] {
  if (!Number.isInteger(frets) || frets < 0) throw new RangeError(`frets must be a whole number from 0 on; got ${frets}`);
  const moves = movesBetween(from, to);
  const right = new Set(moves.filter(({ semitones }) => semitones === 0).map(({ course }) => course));
  const steps: ByEarStep[] = [];
  while (right.size < moves.length) {
    const left = moves.filter(({ course }) => !right.has(course));
    const [best] = left
      .map((move) => ({ move, way: bestWay(move, to, right, frets) }))
      .sort(
        (a, b) => cost(a.way) - cost(b.way) || Math.abs(a.move.semitones) - Math.abs(b.move.semitones) || a.move.course - b.move.course,
      );
    if (best === undefined) break;
    right.add(best.move.course);
    steps.push(stepOf(best.move, best.way, moves.length));
  }
  return steps;
}

const first = (strings: readonly SpelledPitch[] | undefined): SpelledPitch => {
  const [pitch] = strings ?? [];
  if (pitch === undefined) throw new RangeError('a course has at least one string');
  return pitch;
};

/** Unisons before octaves, low frets before high ones, and the peg hand is not asked to hold a string too where it need not. */
function cost(way: ByEarWay): number {
  if (way.kind === 'outside') return Number.POSITIVE_INFINITY;
  return way.fret + (way.fret > easyFret ? 40 : 0) + (way.held === 'moved' ? 15 : 0) + (way.octaves === 0 ? 0 : 30);
}

function bestWay(move: Move, to: OpenPitches, right: ReadonlySet<number>, frets: number): ByEarWay {
  const wanted = pitchMidi(first(to[move.course]));
  const ways = [...right].flatMap((reference) =>
    ([0, 1, -1] as const).flatMap((octaves): ByEarWay[] => {
      const above = wanted - 12 * octaves - pitchMidi(first(to[reference]));
      if (Math.abs(above) > frets) return [];
      return [{ kind: 'match', reference, held: above < 0 ? 'moved' : 'reference', fret: Math.abs(above), octaves }];
    }),
  );
  return ways.reduce((best, way) => (cost(way) < cost(best) ? way : best), { kind: 'outside' });
}

const nth = (fret: number): string => {
  const tens = Math.floor(fret / 10) % 10;
  return `${fret}${tens === 1 ? 'th' : (['th', 'st', 'nd', 'rd'][fret % 10] ?? 'th')}`;
};

function stepOf(move: Move, way: ByEarWay, courses: number): ByEarStep {
  const [from, to] = [first(move.from), first(move.to)];
  const turn = semitonesBetween(from, to) || move.semitones;
  const doing = turn < 0 ? 'Lower' : 'Raise';
  const which = `${move.to.length > 1 ? 'the first string of ' : ''}course ${courseNumber(move.course, courses)}`;
  const sentence = `${doing} ${which} ${untilWords(way, to, courses)}${othersWords(move.to)}`;
  return { course: move.course, to, way, sentence };
}

function untilWords(way: ByEarWay, to: SpelledPitch, courses: number): string {
  if (way.kind === 'outside')
    return `to ${writtenPitch(to)}: no fret of a course that is right gives it, so take the pitch from Stillstring or another instrument.`;
  const reference = `course ${courseNumber(way.reference, courses)}`;
  const sounds = way.octaves === 0 ? 'matches' : `sounds an octave ${way.octaves > 0 ? 'above' : 'below'}`;
  if (way.fret === 0) return `until it ${sounds} ${reference}, both open.`;
  return way.held === 'reference'
    ? `until it ${sounds} ${reference} at the ${nth(way.fret)} fret.`
    : `until, held at its ${nth(way.fret)} fret, it ${sounds} ${reference} open.`;
}

/** The other strings of a course are matched with its first. */
function othersWords(strings: readonly SpelledPitch[]): string {
  const [first, ...others] = strings;
  if (first === undefined) return '';
  return others
    .map((pitch, index) => {
      const apart = semitonesBetween(first, pitch);
      const where =
        apart === 0
          ? 'until the two sound as one'
          : Math.abs(apart) === 12
            ? `an octave ${apart > 0 ? 'above' : 'below'} the first`
            : `to ${writtenPitch(pitch)}`;
      return ` Then tune its ${index === 0 ? 'second' : 'third'} string ${where}.`;
    })
    .join('');
}
