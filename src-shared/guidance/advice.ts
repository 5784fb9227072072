import { centsBetween, hertz } from '#shared/units/index.ts';
import { ninetyFive } from './landing.ts';
import { stringNamed } from './standing.ts';
import type { Advice, CoachState, Doubt, StringState } from './state.ts';
import { aimNow, isToGoBelow } from './undershoot.ts';

const nowhere = { course: null, string: null, aimHertz: null, centsToGo: null, leadCents: null, couplingCents: null, pulls: [] } as const;

/** What the player should do in this state. */
export function advise(state: CoachState): Advice {
  if (state.phase === 'done') return { ...nowhere, action: 'done', why: 'Every course is within tolerance.' };
  if (state.phase === 'strumming' && state.paused) return { ...nowhere, action: 'wait', why: 'Paused.' };
  if (state.phase === 'strumming') return { ...nowhere, action: 'strum', why: 'Strum all courses once, open, and let them ring.' };
  const current = currentString(state);
  if (current === null) return { ...nowhere, action: 'done', why: 'Nothing is left to do.' };
  const { course, string, leadCents, couplingCents, pulls, presentHertz, sounding, visit } = current;
  const aimHertz = aimNow(state.setup, current);
  const centsToGo = centsBetween(hertz(aimHertz), hertz(sounding?.pitch.hertz ?? presentHertz));
  const here = { course, string, aimHertz, centsToGo, leadCents, couplingCents, pulls };
  // While paused nothing is heard, so nothing is to be turned either.
  if (state.paused) return { ...here, action: 'wait', why: state.stopped === null ? 'Paused.' : `Paused. ${state.stopped}` };
  // Nothing is turned while it is in doubt which string sounds, not even after a caution.
  if (state.doubt !== null) return { ...ofDoubt(state, state.doubt, here), action: 'pluck', why: state.doubt.sentence };
  if (state.stopped !== null) return { ...here, action: 'stop', why: state.stopped };
  if (sounding === null || visit === null) {
    const why = state.phase === 'rechecking' ? 'The other pegs may have drawn it off: pluck it once.' : 'Pluck it, then turn its peg.';
    return { ...here, action: 'pluck', why };
  }
  const away = Math.abs(centsToGo);
  const { toleranceCents } = state.setup;
  const reach = ninetyFive * sounding.pitch.sigmaCents;
  const isBelowFirst = isToGoBelow(state.setup, current);
  if (!isBelowFirst && away + reach <= toleranceCents) return { ...here, action: 'wait', why: 'Let it sound.' };
  if (away < reach) return { ...here, action: 'pluck', why: 'Not sure yet which way: let it sound.' };
  const action = centsToGo > 0 ? 'tighten' : 'loosen';
  return { ...here, action, why: visit.notice ?? whyTurn(centsToGo, isBelowFirst) };
}

/** What is asked again: by the course that was named, which need not be the one under way. */
function ofDoubt(
  state: CoachState,
  { sound: { course, string } }: Doubt,
  here: Omit<Advice, 'action' | 'why'>,
): Omit<Advice, 'action' | 'why'> {
  const named = stringNamed(state.strings, { course, string });
  if (named === undefined || (here.course === course && here.string === string)) return { ...here, centsToGo: null };
  const { leadCents, couplingCents, pulls } = named;
  return { course, string, aimHertz: aimNow(state.setup, named), centsToGo: null, leadCents, couplingCents, pulls };
}

function whyTurn(centsToGo: number, isBelowFirst: boolean): string {
  if (isBelowFirst) return 'Take it a little below first, then bring it up.';
  return centsToGo > 0 ? 'It is below its aim.' : 'It is above its aim.';
}

/** The string that is being worked on, or null when the pass is over. */
export function currentString({ queue, strings }: Pick<CoachState, 'queue' | 'strings'>): StringState | null {
  const [place] = queue;
  return place === undefined ? null : (strings[place] ?? null);
}
