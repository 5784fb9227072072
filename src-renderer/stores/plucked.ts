import { type Gathering, gatherPluck, nothingGathered } from '#shared/hearing/index.ts';
import { type Named, type Strings, type TuningAnswer, type TuningCandidate, whichTuning } from '#shared/matching/index.ts';
import type { PitchFrame } from '#shared/pitch/index.ts';
import { centsBetween, hertz } from '#shared/units/index.ts';

/** Courses plucked in any order, to find out what the instrument is in; and those that were asked for by name. */
export type Plucked = {
  readonly gathering: Gathering;
  readonly named: readonly Named[];
  readonly answer: TuningAnswer;
};

const pluckMore: TuningAnswer = { kind: 'unknown', reason: 'pluck-more' };

/** Nothing was plucked yet. */
export const nothingPlucked: Plucked = { gathering: nothingGathered, named: [], answer: pluckMore };

/** A pluck within this of an earlier one is of the same string, in cents. */
const sameCents = 15;

/** Takes one frame; the answer changes with each new pitch. A pluck that was asked for by name rules out what does not have it there. */
export function hearPlucked(plucked: Plucked, frame: PitchFrame, candidates: readonly TuningCandidate[], present: Strings): Plucked {
  const { gathering, added } = gatherPluck(plucked.gathering, frame);
  if (added === null) return { ...plucked, gathering };
  const asked = plucked.answer.kind === 'could-be-several' ? plucked.answer.ask : null;
  const isKnown = plucked.gathering.pitches.some((one) => isNear(one.hertz, added.hertz));
  // A pitch that was not there before is another course: it names none.
  const named = asked === null || !isKnown ? plucked.named : [...plucked.named, { course: asked, hertz: added.hertz }];
  const heard = gathering.pitches.map((pitch) => pitch.hertz);
  return { gathering, named, answer: whichTuning(heard, candidates, present, named) };
}

const isNear = (one: number, other: number): boolean => Math.abs(centsBetween(hertz(one), hertz(other))) < sameCents;
