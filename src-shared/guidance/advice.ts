import { centsToGo } from './passes.ts';
import type { Advice, CoachState, StringState } from './state.ts';

const nowhere = { course: null, string: null, aimHertz: null, centsToGo: null } as const;

/** What the player should do in this state. */
export function advise(state: CoachState): Advice {
  if (state.phase === 'done') return { ...nowhere, action: 'done', why: 'Every course is within tolerance.' };
  const current = currentString(state);
  if (current === null) return { ...nowhere, action: 'done', why: 'Nothing is left to do.' };
  const here = { course: current.course, string: current.string, aimHertz: current.aimHertz, centsToGo: centsToGo(current) };
  if (state.stopped !== null) return { ...here, action: 'stop', why: state.stopped };
  if (state.paused) return { ...here, action: 'wait', why: 'Paused.' };
  if (current.sigmaCents === null || current.before === null) {
    return {
      ...here,
      action: 'pluck',
      why: state.phase === 'rechecking' ? 'The other pegs may have drawn it off: pluck it once.' : 'Pluck it, then turn its peg.',
    };
  }
  const away = Math.abs(here.centsToGo);
  if (away <= state.setup.toleranceCents) return { ...here, action: 'wait', why: 'Let it sound.' };
  if (away < 2 * current.sigmaCents) return { ...here, action: 'pluck', why: 'Not sure yet which way: let it sound.' };
  return here.centsToGo > 0
    ? { ...here, action: 'tighten', why: 'It is below its aim.' }
    : { ...here, action: 'loosen', why: 'It is above its aim.' };
}

/** The string that is being worked on, or null when the pass is over. */
export function currentString({ queue, strings }: Pick<CoachState, 'queue' | 'strings'>): StringState | null {
  const [place] = queue;
  return place === undefined ? null : (strings[place] ?? null);
}
