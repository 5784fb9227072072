import type { Overview, Settings } from '#shared/contract/index.ts';
import { courseNumber } from '#shared/instruments/index.ts';
import { type Move, moveOrder, type Tuning } from '#shared/tunings/index.ts';
import { stateOf, type TuningHere, tuningOn } from '../../stores/strings.ts';
import { chordText } from '../../ui/note-names.ts';
import { type Here, hereOn, marginOn } from './here.ts';

/** One row of the library: a tuning, and what it is on the instrument in hand; null where that cannot take it. */
export type TuningRow = { readonly tuning: Tuning; readonly here: Here | null };

const sliceMilliseconds = 8;

/** Reads all rows little by little, so that a search finds ready what it asks of them. Returns what stops it. */
export function readAhead(rows: readonly TuningRow[], read: (row: TuningRow) => void): () => void {
  let next = 0;
  const slice = (): void => {
    const until = performance.now() + sliceMilliseconds;
    while (next < rows.length && performance.now() < until) {
      const row = rows[next];
      if (row !== undefined) read(row);
      next += 1;
    }
    if (next < rows.length) timer = setTimeout(slice, 2 * sliceMilliseconds);
  };
  let timer = setTimeout(slice, 2 * sliceMilliseconds);
  return () => clearTimeout(timer);
}

type Kept = { readonly tunings: readonly Tuning[]; readonly settings: Settings; readonly rows: readonly TuningRow[] };
/** The rows of each instrument as they were last worked out: the player comes back to them from other screens. */
const latest = new WeakMap<Overview, Kept>();

/** Every tuning of the library as it is on an instrument; the same rows while none of the three changes. */
export function tuningRows(overview: Overview, tunings: readonly Tuning[], settings: Settings): readonly TuningRow[] {
  const kept = latest.get(overview);
  if (kept?.tunings === tunings && kept.settings === settings) return kept.rows;
  const isAtHome = !tunings.some(({ id }) => id === overview.instrument.tuningId);
  const ground = { overview, settings, isAtHome, state: stateOf(overview, tunings, settings) };
  const rows = tunings.map((tuning) => ({ tuning, here: hereOn(tuning, ground) }));
  latest.set(overview, { tunings, settings, rows });
  return rows;
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

/** Another instrument of the player's that takes a tuning, and what the tuning is there. */
export type Taker = { readonly overview: Overview; readonly to: TuningHere };
/** Those that take it, and by their number of courses those that can't. */
export type Takers = {
  readonly takes: readonly Taker[];
  readonly cannot: readonly { readonly courses: number; readonly names: readonly string[] }[];
};

/** Which of the other instruments take a tuning. */
export function takersOf(tuning: Tuning, others: readonly Overview[], settings: Settings): Takers {
  const judged = others.map((overview) => ({ overview, to: tuningOn(overview, tuning, settings) }));
  return {
    takes: judged.flatMap(({ overview, to }) => (to === null ? [] : [{ overview, to }])),
    cannot: [
      ...Map.groupBy(
        judged.filter(({ to }) => to === null),
        ({ overview }) => overview.stringSet.courses.length,
      ),
    ].map(([courses, those]) => ({ courses, names: those.map(({ overview }) => overview.instrument.name) })),
  };
}

/** Another instrument in words: as which chord it takes a tuning, with which margin. `Moth as B♭ major, slack in 3` */
export function takerWords({ overview, to }: Taker): string {
  const [chord, margin] = [chordText(to.pitches.flat()), marginOn(overview, to)];
  return `${overview.instrument.name}${chord === null ? '' : ` as ${chord}`}${margin === null ? '' : `, ${margin}`}`;
}
