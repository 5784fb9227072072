import { matchFrame, type Match, type Strings } from '#shared/matching/index.ts';
import { advise, currentString } from './advice.ts';
import { step } from './coach.ts';
import type { Advice, CoachState, Effect } from './state.ts';

/** A live pitch, as the tracker gives it. */
type Frame = { readonly atSeconds: number; readonly hertz: number; readonly sigmaCents: number; readonly steady: boolean };

/** What the coach made of one frame, and which course it was taken for. */
export type Heard = { readonly state: CoachState; readonly match: Match; readonly advice: Advice; readonly effects: readonly Effect[] };

/**
 * Takes one frame: finds the course that sounds, and lets the coach step if one does. A frame that cannot be told apart changes nothing.
 */
export function hear(state: CoachState, frame: Frame): Heard {
  const asked = state.following ? null : (currentString(state)?.course ?? null);
  const match = matchFrame(frame.hertz, { present: presentOf(state), wanted: state.setup.wanted, asked });
  if (match.kind === 'unknown') return { state, match, advice: advise(state), effects: [] };
  const { course, string } = match;
  const { atSeconds, hertz, sigmaCents, steady } = frame;
  const stepped = step(state, { kind: 'reading', atSeconds, course, string, hertz, sigmaCents, steady });
  return { ...stepped, match };
}

/** The hint for the tracker: what may sound, and the place of the string asked for. */
export function listenFor(state: CoachState): { readonly hertz: readonly number[]; readonly asked: number | null } {
  return { hertz: state.strings.map(({ presentHertz }) => presentHertz), asked: state.following ? null : (state.queue[0] ?? null) };
}

const presentOf = (state: CoachState): Strings =>
  state.setup.wanted.map((strings, course) =>
    strings.map((wanted, string) => state.strings.find((one) => one.course === course && one.string === string)?.presentHertz ?? wanted),
  );
