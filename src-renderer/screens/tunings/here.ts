import type { Overview, Settings } from '#shared/contract/index.ts';
import { stringing, type Stringing } from '#shared/instruments/index.ts';
import { type Move, movesBetween, type Tuning } from '#shared/tunings/index.ts';
import { centsBetween, hertz } from '#shared/units/index.ts';
import { judgeTuning, type TuningJudgement } from '../../stores/judging.ts';
import { pullAt } from '../../stores/pull.ts';
import { type State, type TuningHere, tuningOn } from '../../stores/strings.ts';
import { chordText } from '../../ui/note-names.ts';
import { marginWords, worstMargin } from '../margins.ts';

/** A tuning as it is on the instrument in hand. */
export type Here = {
  readonly to: TuningHere;
  /** What the instrument is in now. */
  readonly from: TuningHere;
  readonly chord: string | null;
  readonly stringing: Stringing;
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

/** What the tunings of a library stand on: the instrument in hand, where its strings are, and whether it is in none of those tunings. */
export type HereGround = { readonly overview: Overview; readonly state: State; readonly settings: Settings; readonly isAtHome: boolean };

/** Everything is worked out when it is first asked for, and then kept: of a library of thousands only a few rows are in sight. */
class KeptHere implements Here {
  readonly to: TuningHere;
  readonly #id: string;
  readonly #ground: HereGround;
  #chord: string | null | undefined;
  #moves: readonly Move[] | undefined;
  #margin: string | null | undefined;
  #judged: TuningJudgement | undefined;

  constructor(id: string, to: TuningHere, ground: HereGround) {
    this.to = to;
    this.#id = id;
    this.#ground = ground;
  }

  get from(): TuningHere {
    return this.#ground.state.tuning;
  }

  get chord(): string | null {
    if (this.#chord === undefined) this.#chord = chordText(this.to.pitches.flat());
    return this.#chord;
  }

  get stringing(): Stringing {
    return stringing(this.to.pitches);
  }

  get moves(): readonly Move[] {
    return (this.#moves ??= movesBetween(this.from.pitches, this.to.pitches));
  }

  get away(): readonly (readonly number[])[] {
    const { present } = this.#ground.state;
    return this.to.hertz.map((strings, course) =>
      strings.map((wanted, string) => centsBetween(hertz(present[course]?.[string] ?? wanted), hertz(wanted)) / 100),
    );
  }

  get margin(): string | null {
    if (this.#margin === undefined) this.#margin = marginOn(this.#ground.overview, this.to);
    return this.#margin;
  }

  get judged(): TuningJudgement {
    const { overview, state, settings } = this.#ground;
    return (this.#judged ??= judgeTuning(overview, this.to, state, settings));
  }

  get isHere(): boolean {
    const { overview, isAtHome } = this.#ground;
    return this.#id === overview.instrument.tuningId || (isAtHome && this.moves.every(({ semitones }) => semitones === 0));
  }
}

/** A tuning as it is on an instrument; null where that cannot take it. */
export function hereOn(tuning: Tuning, ground: HereGround): Here | null {
  const to = tuningOn(ground.overview, tuning, ground.settings);
  return to === null ? null : new KeptHere(tuning.id, to, ground);
}

/** The margin that is used up first on an instrument in a tuning, in words. */
export function marginOn(overview: Overview, to: TuningHere): string | null {
  const pulls = to.hertz.flatMap((strings, course) => strings.map((pitch, string) => pullAt(overview, course, string, pitch)));
  const worst = worstMargin(pulls);
  return worst === null ? null : marginWords(worst);
}
