import { createStore } from 'zustand/vanilla';
import type { Host, Overview, Settings } from '#shared/contract/index.ts';
import type { PitchEvent } from '#shared/pitch/index.ts';
import type { Tuning } from '#shared/tunings/index.ts';
import { freshOverview } from './fresh.ts';
import { hearPlucked, nothingPlucked, type Plucked } from './plucked.ts';
import { cueLanded, listen, onPitch, type SoundChoice, stopListening } from './session.ts';
import { stateOf, type State, type TuningHere, tuningOn } from './strings.ts';

/** A tuning that the instrument may be in; `tuning` null = its home. */
export type Candidate = { readonly id: string; readonly tuning: Tuning | null; readonly here: TuningHere };

/** "What am I in?" under way. */
export type Which = {
  readonly overview: Overview;
  /** What the log has it in. */
  readonly state: State;
  readonly candidates: readonly Candidate[];
  readonly plucked: Plucked;
};

/** "What am I in?" under way, or null. */
export const which = createStore<{ readonly now: Which | null }>(() => ({ now: null }));

let leave: (() => void) | null = null;
/** How often it was begun or ended. */
let begun = 0;

type Begin = {
  readonly host: Host;
  readonly overview: Overview;
  readonly tunings: readonly Tuning[];
  readonly settings: Settings;
  readonly sound: SoundChoice;
};

/** Begins to listen to the courses of an instrument, plucked in any order. Rejects where nothing can be heard. */
export async function beginWhich({ host, overview: shown, tunings, settings, sound }: Begin): Promise<void> {
  endWhich();
  const mine = begun;
  const overview = await freshOverview(host, shown);
  // It was ended, or begun anew, before it was known what the log has the instrument in.
  if (mine !== begun) return;
  const state = stateOf(overview, tunings, settings);
  which.setState({ now: { overview, state, candidates: candidatesOf(overview, tunings, settings), plucked: nothingPlucked } });
  leave = onPitch((event) => take(event, settings.soundCues));
  await listen(sound, { hertz: state.present.flat(), asked: null });
}

/** Every tuning that the instrument can take, its home among them, each sound of it once. */
function candidatesOf(overview: Overview, tunings: readonly Tuning[], settings: Settings): readonly Candidate[] {
  const seen = new Set<string>();
  return [...tunings, null].flatMap((tuning): Candidate[] => {
    const here = tuningOn(overview, tuning, settings);
    const sound = here?.hertz.flat().map(Math.round).join(' ') ?? '';
    if (here === null || seen.has(sound)) return [];
    seen.add(sound);
    return [{ id: tuning?.id ?? 'home', tuning, here }];
  });
}

/** Stops listening; what was heard is forgotten. */
export function endWhich(): void {
  begun += 1;
  if (which.getState().now === null) return;
  leave?.();
  leave = null;
  stopListening();
  which.setState({ now: null });
}

/** Begins anew: what was plucked so far is forgotten. */
export function pluckAnew(): void {
  const { now } = which.getState();
  if (now !== null) which.setState({ now: { ...now, plucked: nothingPlucked } });
}

function take(event: PitchEvent, hasCues: boolean): void {
  const { now } = which.getState();
  if (now === null || event.kind === 'refusal') return;
  const candidates = now.candidates.map(({ id, here }) => ({ id, wanted: here.hertz }));
  const plucked = hearPlucked(now.plucked, event, candidates, now.state.present);
  which.setState({ now: { ...now, plucked } });
  if (hasCues && plucked.answer !== now.plucked.answer) cueLanded();
}
