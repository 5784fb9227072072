import { matchFrame, type Match, type Strings } from '#shared/matching/index.ts';
import { centsBetween, hertz } from '#shared/units/index.ts';
import { advise, currentString } from './advice.ts';
import { step } from './coach.ts';
import type { Advice, CoachState, Effect, StringState } from './state.ts';

/** A live pitch, as the tracker gives it. */
type Frame = { readonly atSeconds: number; readonly hertz: number; readonly sigmaCents: number; readonly steady: boolean };

/** What the coach made of one frame, and which course it was taken for. */
export type Heard = { readonly state: CoachState; readonly match: Match; readonly advice: Advice; readonly effects: readonly Effect[] };

/**
 * Takes one frame: finds the course that sounds, and lets the coach step if one does. A frame that cannot be told apart changes nothing.
 */
export function hear(state: CoachState, frame: Frame): Heard {
  const match = matchOf(state, frame.hertz);
  if (match.kind === 'unknown') return { state, match, advice: advise(state), effects: [] };
  const { course, string } = match;
  const stepped = step(state, { ...frame, kind: 'reading', course, string });
  return { ...stepped, match };
}

function matchOf(state: CoachState, heardHertz: number): Match {
  const current = currentString(state);
  const among = { present: presentOf(state), wanted: state.setup.wanted };
  if (!state.following) return matchFrame(heardHertz, { ...among, asked: current?.course ?? null, askedString: current?.string ?? null });
  const match = matchFrame(heardHertz, { ...among, asked: null });
  if (match.kind === 'match' || match.reason !== 'could-be-several') return match;
  // Several could be there by now, but a string under way is heard on its way: the one that was heard there last is meant.
  const off = ({ presentHertz }: StringState): number => Math.abs(centsBetween(hertz(heardHertz), hertz(presentHertz)));
  const here = state.strings.filter((one) => match.candidates.includes(one.course) && off(one) <= standingCents);
  const isUnderWay = current !== null && current.visit !== null && match.candidates.includes(current.course) && off(current) <= strideCents;
  const courses = new Set(isUnderWay ? [current.course] : here.map(({ course }) => course));
  const [only] = courses;
  return only === undefined || courses.size > 1 ? match : matchFrame(heardHertz, { ...among, asked: only });
}

/** How near to where it was last heard a string stands that was not turned, and how far a turning peg takes one between two frames, in cents. */
const standingCents = 35;
const strideCents = 60;

/** The hint for the tracker: what may sound, and the place of the string asked for. */
export function listenFor(state: CoachState): { readonly hertz: readonly number[]; readonly asked: number | null } {
  return { hertz: state.strings.map(({ presentHertz }) => presentHertz), asked: state.following ? null : (state.queue[0] ?? null) };
}

const presentOf = (state: CoachState): Strings =>
  state.setup.wanted.map((strings, course) =>
    strings.map((wanted, string) => state.strings.find((one) => one.course === course && one.string === string)?.presentHertz ?? wanted),
  );
