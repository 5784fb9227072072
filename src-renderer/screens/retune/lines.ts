import type { Overview } from '#shared/contract/index.ts';
import type { SpelledPitch } from '#shared/music/index.ts';
import { courseNumber } from '#shared/instruments/index.ts';
import { movesBetween, moveOrder } from '#shared/tunings/index.ts';
import { centsBetween, hertz } from '#shared/units/index.ts';
import { type Pull, pullAt } from '../../stores/pull.ts';
import type { TuningHere } from '../../stores/strings.ts';

/** One course of a retune as it is shown: from, to, how far, in which order, and what it carries before and after. */
export type Line = {
  readonly course: number;
  readonly number: number;
  readonly from: readonly SpelledPitch[];
  readonly to: readonly SpelledPitch[];
  /** Spelled move in semitones; 0 where the course stays. */
  readonly semitones: number;
  /** From where it is to where it is wanted; positive = tighten. */
  readonly cents: number;
  /** Place in the order of turning, from 0; null where it stays. */
  readonly turn: number | null;
  /** What its first string carries. */
  readonly now: Pull;
  readonly after: Pull;
  /** What all its strings pull together, in newtons; null where the figures of one are not known. */
  readonly together: { readonly now: number | null; readonly after: number | null };
  readonly gauge: number;
};

/** The courses of a retune, from the player's eye down. A course whose spelling stays but which has drifted out of tolerance still gets its turn. */
export function linesOf(
  overview: Overview,
  from: TuningHere,
  to: TuningHere,
  present: readonly (readonly number[])[],
  toleranceCents: number,
): readonly Line[] {
  const moves = movesBetween(from.pitches, to.pitches);
  const distances = moves.map(({ course }) => {
    const [now, wanted] = [present[course]?.[0], to.hertz[course]?.[0]];
    return now === undefined || wanted === undefined ? 0 : centsBetween(hertz(wanted), hertz(now));
  });
  const order = moveOrder(distances.map((cents) => (Math.abs(cents) > toleranceCents ? cents : 0)));
  return moves.map((move) => {
    const turn = order.indexOf(move.course);
    return {
      course: move.course,
      number: courseNumber(move.course, moves.length),
      from: move.from,
      to: move.to,
      semitones: move.semitones,
      cents: distances[move.course] ?? 0,
      turn: turn === -1 ? null : turn,
      now: pullAt(overview, move.course, 0, present[move.course]?.[0]),
      after: pullAt(overview, move.course, 0, to.hertz[move.course]?.[0]),
      together: { now: pullTogether(overview, move.course, present), after: pullTogether(overview, move.course, to.hertz) },
      gauge: overview.stringSet.courses[move.course]?.strings[0]?.diameterMillimetres ?? 0.7,
    };
  });
}

const pullTogether = (overview: Overview, course: number, at: readonly (readonly number[])[]): number | null =>
  (overview.stringSet.courses[course]?.strings ?? []).reduce<number | null>((sum, _, string) => {
    const { newtons } = pullAt(overview, course, string, at[course]?.[string]);
    return sum === null || newtons === null ? null : sum + newtons;
  }, 0);

/** `loosen 2 semitones`, `tighten 14 c`, `stays`. */
export function moveWords({ semitones, cents, turn }: Pick<Line, 'semitones' | 'cents' | 'turn'>): string {
  if (turn === null) return 'stays';
  const verb = cents < 0 ? 'loosen' : 'tighten';
  const steps = Math.abs(semitones);
  return steps === 0 ? `${verb} ${Math.round(Math.abs(cents))} c` : `${verb} ${steps} ${steps === 1 ? 'semitone' : 'semitones'}`;
}
