import type { InstrumentString } from '#shared/instruments/index.ts';
import { centsBetween, type Hertz, type Millimetres, type Newtons } from '#shared/units/index.ts';
import type { Estimate } from './linear-density.ts';
import { breakShareBand, cautionShare, confirmShare, highShare, slackShare } from './margin.ts';
import { pullAt } from './pull.ts';

/** A string and the move that is asked of it. `leastUsualPull` is the least published for the size, null where none is. */
export type StringMove = {
  readonly string: InstrumentString;
  readonly scaleLength: Millimetres;
  readonly from: Hertz;
  readonly to: Hertz;
  readonly leastUsualPull: Newtons | null;
};

/** What a move means for a string, the gravest that applies. */
export type MoveVerdict = 'within' | 'soft' | 'high' | 'near the limit' | 'confirm' | 'another string';

/** What a string pulls before and after a move and how near it comes to its limits; null where its figures are not known. */
export type MoveJudgement = {
  readonly semitones: number;
  readonly before: Estimate<Newtons> | null;
  readonly after: Estimate<Newtons> | null;
  /** After less before; negative where it is loosened. */
  readonly changeNewtons: number | null;
  /** Share of the breaking stress afterwards. */
  readonly share: { readonly value: number; readonly low: number; readonly high: number } | null;
  readonly verdict: MoveVerdict;
  /** Whether it pulls more afterwards than its maker rates it for; false where either is not known. */
  readonly isBeyondRating: boolean;
};

/** A move of so many semitones or more, either way, is an octave or nearly: the pull changes more than threefold (own choice). */
const anotherStringSemitones = 10;

/**
 * Judges one string's move. An octave up or down, or past where it is expected to break, is another string; upward the bands of the breaking stress
 * count (55, 75, 85 %), downward a pull below 0.75 of the least usual one is soft. A fresh string at best; maker and luthier know better.
 * Soprano, plain 0.67 mm, G4 to G3 → another string.
 */
export function judgeMove({ string, scaleLength, from, to, leastUsualPull }: StringMove): MoveJudgement {
  const [before, after] = [pullAt(string, scaleLength, from), pullAt(string, scaleLength, to)];
  const semitones = centsBetween(to, from) / 100;
  const share = breakShareBand(string, scaleLength, to);
  return {
    semitones,
    before,
    after,
    changeNewtons: before === null || after === null ? null : after.value - before.value,
    share,
    verdict: verdictOn(
      semitones,
      share?.value ?? null,
      after !== null && leastUsualPull !== null && after.value < slackShare * leastUsualPull,
    ),
    isBeyondRating: after !== null && string.ratedTensionNewtons !== undefined && after.value > string.ratedTensionNewtons,
  };
}

function verdictOn(semitones: number, share: number | null, isSoft: boolean): MoveVerdict {
  // A tenth of a cent keeps a spelled interval on its side of the border.
  if (Math.abs(semitones) > anotherStringSemitones - 0.001) return 'another string';
  if (semitones <= 0 || share === null) return isSoft ? 'soft' : 'within';
  if (share > 1) return 'another string';
  if (share > confirmShare) return 'confirm';
  if (share > cautionShare) return 'near the limit';
  if (share > highShare) return 'high';
  return isSoft ? 'soft' : 'within';
}
