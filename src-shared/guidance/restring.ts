import { unheard } from './landing.ts';
import { learnString } from '#shared/settling/index.ts';
import { driftOf } from './drift.ts';
import { standAt } from './standing.ts';
import type { CoachState } from './state.ts';

/** A new string may be anywhere, as a sigma in cents. */
const anywhereCents = 1200;

/** A new string was put on: it is visited next, and forgets what its place had learned. Unchanged where there is no such string. */
export function restrung(
  state: CoachState,
  { course, string, atSeconds }: { course: number; string: number; atSeconds: number },
): CoachState {
  const place = state.strings.findIndex((one) => one.course === course && one.string === string);
  const old = state.strings[place];
  if (old === undefined) return state;
  const facts = state.setup.instrument.courses[course]?.strings[string];
  const fresh = { material: facts?.material ?? 'nylon', wound: facts?.wound ?? false, daysSinceChange: 0 } as const;
  const drift = driftOf(learnString({ string: fresh, past: [], nowSeconds: atSeconds }), atSeconds, []);
  const standing = standAt({ hertz: old.wantedHertz, sigmaCents: anywhereCents, atSeconds }, state.strings.length);
  const restarted = {
    ...old,
    drift,
    standing,
    visit: null,
    sigmaCents: null,
    ...unheard,
    landedAtSeconds: null,
    skipped: false,
    landings: 0,
    moves: [],
  };
  return {
    ...state,
    phase: state.phase === 'turning' ? 'turning' : 'rechecking',
    turnedSinceStrum: true,
    stopped: null,
    strings: state.strings.map((one, index) => (index === place ? restarted : one)),
    queue: [place, ...state.queue.filter((other) => other !== place)],
  };
}
