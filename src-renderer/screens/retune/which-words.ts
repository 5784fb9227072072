import { courseNumber } from '#shared/instruments/index.ts';
import type { RankedTuning } from '#shared/matching/index.ts';
import { confirmShare } from '#shared/tension/index.ts';
import { pullAt } from '../../stores/pull.ts';
import { playedPitches } from '../../stores/played.ts';
import type { Candidate, Which } from '../../stores/which.ts';
import { hertz } from '#shared/units/index.ts';
import { amountWords, capital, centsText, count, listed, pitchText } from '../../ui/words.ts';

/** A string this near to a tuning needs no move to be in it, in cents (own choice: a touch-up away). */
const inItCents = 50;
const mostShown = 6;

/** One tuning of the answer with the moves to it. */
export type WhichRow = { readonly candidate: Candidate; readonly isIn: boolean; readonly moves: string };

/** The nearest tunings that the strings can take, with the moves to each; empty while the answer is open. */
export function whichRows({ overview, state, candidates, plucked: { answer, gathering } }: Which): readonly WhichRow[] {
  if (answer.kind !== 'ranked') return [];
  // Fewer pitches than strings may be all of them where two sound alike; else a course is still to come.
  const isWhole = gathering.pitches.length >= state.tuning.hertz.flat().length;
  if (!isWhole && (answer.tunings[0]?.worstCents ?? inItCents) >= inItCents) return [];
  return answer.tunings
    .flatMap((ranked): WhichRow[] => {
      const candidate = candidates.find(({ id }) => id === ranked.id);
      const isWithinReach = candidate?.here.hertz.every((strings, course) =>
        strings.every((wanted, string) => (pullAt(overview, course, string, wanted).breakShare ?? 0) <= confirmShare),
      );
      return candidate === undefined || isWithinReach !== true
        ? []
        : [{ candidate, isIn: ranked.worstCents < inItCents, moves: movesTo(ranked) }];
    })
    .slice(0, mostShown);
}

/** `tighten 3 a tone, loosen 1 a semitone`; `every course within 6 c` where it is in it. */
function movesTo({ moves, worstCents }: RankedTuning): string {
  if (worstCents < inItCents) return `every course within ${centsText(Math.max(1, worstCents), 1)}`;
  const each = moves.flatMap((strings, course) => {
    const [cents] = strings.toSorted((a, b) => Math.abs(b) - Math.abs(a));
    const number = courseNumber(course, moves.length);
    if (cents === undefined || Math.abs(cents) < inItCents) return [];
    return [`${cents < 0 ? 'loosen' : 'tighten'} ${number} ${amountWords(cents)}`];
  });
  return each.join(', ');
}

/** What to do, or what was found, in a sentence; and what was heard so far. */
export function whichWords(now: Which, referenceHertz: number): { readonly strong: string; readonly rest: string } {
  const { candidates, plucked, state } = now;
  const { answer, gathering } = plucked;
  const strings = state.tuning.hertz.flat().length;
  const { pitches } = playedPitches(
    gathering.pitches.map((pitch) => ({ ...pitch, hertz: hertz(pitch.hertz) })),
    hertz(referenceHertz),
  );
  const heard = pitches.length === 0 ? '' : `Heard so far: ${listed(pitches.map((pitch) => pitchText(pitch)))}.`;
  if (answer.kind === 'could-be-several') {
    const names = answer.alike.flatMap((id) => candidates.find((one) => one.id === id)?.here.name ?? []);
    const ask =
      answer.ask === null
        ? 'Pluck every course once more.'
        : `Can’t tell yet: pluck course ${courseNumber(answer.ask, state.tuning.pitches.length)}.`;
    return { strong: ask, rest: `It could be ${names.slice(0, 3).join(' or ')}.` };
  }
  const isDouble = state.tuning.hertz.some((course) => course.length > 1);
  const more = isDouble ? 'Pluck every string once by itself, in any order.' : 'Pluck every course once, open, in any order.';
  if (answer.kind === 'ranked') {
    const [first] = whichRows(now);
    if (first?.isIn === true) return { strong: `It is in ${first.candidate.here.name}`, rest: `${capital(first.moves)}.` };
    if (first !== undefined) return { strong: `${first.candidate.here.name} is the nearest`, rest: `${capital(first.moves)}.` };
    return { strong: gathering.pitches.length < strings ? more : 'No tuning of the library is within reach.', rest: heard };
  }
  if (answer.reason === 'too-many')
    return { strong: `That is more than ${count(strings, 'string')}.`, rest: 'Start again: every course once, open.' };
  if (answer.reason === 'no-tuning-near') return { strong: 'No tuning of the library is near that.', rest: heard };
  return { strong: more, rest: heard };
}
