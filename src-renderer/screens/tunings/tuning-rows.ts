import type { Overview, Settings } from '#shared/contract/index.ts';
import { courseNumber, stringing } from '#shared/instruments/index.ts';
import { type Move, movesBetween, moveOrder, type Tuning } from '#shared/tunings/index.ts';
import { centsBetween, hertz } from '#shared/units/index.ts';
import { judgeTuning, type TuningJudgement } from '../../stores/judging.ts';
import { pullAt } from '../../stores/pull.ts';
import { type State, stateOf, type TuningHere, tuningOn } from '../../stores/strings.ts';
import { chordText } from '../../ui/note-names.ts';
import { marginWords, worstMargin } from '../margins.ts';

/** A tuning as it is on the instrument in hand. */
export type Here = {
  readonly to: TuningHere;
  /** What the instrument is in now. */
  readonly from: TuningHere;
  readonly chord: string | null;
  readonly stringing: 're-entrant' | 'linear';
  /** Every course; those that stay have 0 semitones. */
  readonly moves: readonly Move[];
  /** Where each string is now, in semitones from where it is wanted; per course and string. */
  readonly away: readonly (readonly number[])[];
  /** The margin that is used up first, in words; null where no string's figures are known. */
  readonly margin: string | null;
  /** What it asks of every string, and of all together. */
  readonly judged: TuningJudgement;
  /** Whether the instrument is in this tuning. */
  readonly isHere: boolean;
};

/** One row of the library: a tuning, and what it is on the instrument in hand; null where that cannot take it. */
export type TuningRow = { readonly tuning: Tuning; readonly here: Here | null };

const chords = new WeakMap<TuningHere, string | null>();

/** The chord of the open courses. Named when it is first asked for, and then kept: in a library of thousands it takes longer than all the rest. */
function chordOf(to: TuningHere): string | null {
  const known = chords.get(to);
  if (known !== undefined) return known;
  const chord = chordText(to.pitches.flat());
  chords.set(to, chord);
  return chord;
}

const sliceMilliseconds = 8;

/** Names the chords of all rows little by little, so that a search by chord finds them ready. Returns what stops it. */
export function nameChordsAhead(rows: readonly TuningRow[]): () => void {
  let next = 0;
  const slice = (): void => {
    const until = performance.now() + sliceMilliseconds;
    while (next < rows.length && performance.now() < until) {
      const to = rows[next]?.here?.to;
      if (to !== undefined) chordOf(to);
      next += 1;
    }
    if (next < rows.length) timer = setTimeout(slice, 2 * sliceMilliseconds);
  };
  let timer = setTimeout(slice, 2 * sliceMilliseconds);
  return () => clearTimeout(timer);
}

/** Every tuning of the library as it is on an instrument. */
export function tuningRows(overview: Overview, tunings: readonly Tuning[], settings: Settings): readonly TuningRow[] {
  const state = stateOf(overview, tunings, settings);
  const isAtHome = !tunings.some(({ id }) => id === overview.instrument.tuningId);
  return tunings.map((tuning) => ({ tuning, here: hereOn(overview, tuning, state, settings, isAtHome) }));
}

/** A tuning as it is on an instrument in a state; null where that cannot take it. What takes long is worked out when it is first asked for. */
export function hereOn(overview: Overview, tuning: Tuning, state: State, settings: Settings, isAtHome = false): Here | null {
  const to = tuningOn(overview, tuning, settings);
  if (to === null) return null;
  const moves = movesBetween(state.tuning.pitches, to.pitches);
  let judged: TuningJudgement | null = null;
  return {
    to,
    from: state.tuning,
    get chord() {
      return chordOf(to);
    },
    stringing: stringing(to.pitches),
    moves,
    away: to.hertz.map((strings, course) =>
      strings.map((wanted, string) => centsBetween(hertz(state.present[course]?.[string] ?? wanted), hertz(wanted)) / 100),
    ),
    margin: marginOn(overview, to),
    get judged() {
      return (judged ??= judgeTuning(overview, to, state, settings));
    },
    isHere: tuning.id === overview.instrument.tuningId || (isAtHome && moveCount(moves) === 0),
  };
}

/** The margin that is used up first on an instrument in a tuning, in words. */
export function marginOn(overview: Overview, to: TuningHere): string | null {
  const pulls = to.hertz.flatMap((strings, course) => strings.map((pitch, string) => pullAt(overview, course, string, pitch)));
  const worst = worstMargin(pulls);
  return worst === null ? null : marginWords(worst);
}

/** A piece of `3 down 2`. */
export type MoveWords = { readonly who: string; readonly words: string };

const stepWords = (step: number): string => `${step < 0 ? 'down' : 'up'} ${Math.abs(step)}`;

/** The moves in words, in the order in which they are turned; one piece where every course does the same, none where all stay. */
export function moveWords(moves: readonly Move[]): readonly MoveWords[] {
  const semitones = moves.map((move) => move.semitones);
  const [first = 0] = semitones;
  if (moves.length > 1 && first !== 0 && semitones.every((step) => step === first))
    return [{ who: `all ${moves.length}`, words: stepWords(first) }];
  return moveOrder(semitones).map((course) => ({
    who: String(courseNumber(course, moves.length)),
    words: stepWords(semitones[course] ?? 0),
  }));
}

/** How many courses move. */
export const moveCount = (moves: readonly Move[]): number => moves.filter(({ semitones }) => semitones !== 0).length;

/** Another instrument of the player's that takes a tuning: as which chord, with which margin. */
export type Taker = { readonly name: string; readonly chord: string | null; readonly margin: string | null };
/** Those that take it, and by their number of courses those that can't. */
export type Takers = {
  readonly takes: readonly Taker[];
  readonly cannot: readonly { readonly courses: number; readonly names: readonly string[] }[];
};

/** Which of the other instruments take a tuning. */
export function takersOf(tuning: Tuning, others: readonly Overview[], settings: Settings): Takers {
  const judged = others.map((overview) => ({ overview, to: tuningOn(overview, tuning, settings) }));
  return {
    takes: judged.flatMap(({ overview, to }) =>
      to === null ? [] : [{ name: overview.instrument.name, chord: chordText(to.pitches.flat()), margin: marginOn(overview, to) }],
    ),
    cannot: [
      ...Map.groupBy(
        judged.filter(({ to }) => to === null),
        ({ overview }) => overview.stringSet.courses.length,
      ),
    ].map(([courses, those]) => ({ courses, names: those.map(({ overview }) => overview.instrument.name) })),
  };
}
