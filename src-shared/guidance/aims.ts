import { breakShare, confirmShare } from '#shared/tension/index.ts';
import { atCents, cents, hertz } from '#shared/units/index.ts';
import { expectedShift } from './coupling.ts';
import { driftBetween } from './drift.ts';
import { pullNewtons, scaleLengthOf } from './pull.ts';
import { expectedOffset, gainNewtons, stringAt } from './standing.ts';
import type { CoachState, Pull, StringState } from './state.ts';

/** A turn is over, and the string heard, about this long after it began, in seconds. */
const turnSeconds = 4;
/** A pull smaller than this is not worth a word, in cents. */
const leastPullCents = 0.05;

/**
 * Sets every aim: wanted, plus the lead, minus what the moves still to come are expected to add.
 * The string being visited keeps its aim, so that it stands still under the player's hands.
 */
export function withAims(state: CoachState): CoachState {
  const planned = state.strings.map((one, place) => plannedMove(state, one, place));
  const strings = state.strings.map((one, place) => {
    if (one.visit !== null) return one;
    const pulls = pullsOn(state, place, planned);
    const { leadCents } = planned[place] ?? { leadCents: 0 };
    const expected = pulls.reduce((sum, pull) => sum + pull.cents, 0);
    const couplingCents = withinMargin(state.setup, one, leadCents - expected) - leadCents;
    const aimHertz = atCents(hertz(one.wantedHertz), cents(leadCents + couplingCents));
    return { ...one, leadCents, couplingCents, pulls, aimHertz };
  });
  return { ...state, strings };
}

type Planned = { readonly leadCents: number; readonly gainNewtons: number };

/** Where a string still to be visited is headed, and what it will pull then. */
function plannedMove(state: CoachState, one: StringState, place: number): Planned {
  const offset = expectedOffset(state, place, state.nowSeconds).cents;
  const isToMove = state.queue.includes(place) && Math.abs(offset) > state.setup.toleranceCents;
  const leadCents = leadOf(state, one, isToMove ? -offset : 0);
  if (!isToMove) return { leadCents, gainNewtons: 0 };
  const at = (distance: number) => atCents(hertz(one.wantedHertz), cents(distance));
  return { leadCents, gainNewtons: gainNewtons(state.setup, one, at(offset), at(leadCents)) };
}

/** The lead of a string that is about to be turned by so much (0 = not at all): what it is expected to drift by the time named, the other way. */
export function leadOf({ setup, nowSeconds }: Pick<CoachState, 'setup' | 'nowSeconds'>, one: StringState, turnCents: number): number {
  const { lead } = setup;
  if (lead === null || lead === undefined || lead.untilSeconds <= nowSeconds) return 0;
  const turns = turnCents === 0 ? one.moves : [...one.moves, { atSeconds: nowSeconds + turnSeconds / 2, cents: turnCents }];
  const from = nowSeconds + (turnCents === 0 ? 0 : turnSeconds);
  const drift = driftBetween(one.drift, turns, from, Math.max(from, lead.untilSeconds));
  return withinMargin(setup, one, Math.max(-lead.capCents, Math.min(lead.capCents, -drift.cents)));
}

/** An aim beside wanted never takes a string past the share of its breaking stress that needs a confirmation. */
function withinMargin(setup: CoachState['setup'], one: StringState, asideCents: number): number {
  const string = setup.instrument.courses[one.course]?.strings[one.string];
  if (asideCents <= 0 || string === undefined) return asideCents;
  const share = breakShare(string, scaleLengthOf(setup, one.course), hertz(one.wantedHertz));
  if (share === null) return asideCents;
  return Math.max(0, Math.min(asideCents, 600 * Math.log2(confirmShare / share)));
}

/** What the moves that come after a string's own are expected to do to it. */
function pullsOn(state: CoachState, place: number, planned: readonly Planned[]): readonly Pull[] {
  const own = state.queue.indexOf(place);
  const one = stringAt(state.strings, place);
  const newtons = pullNewtons(state.setup, one.course, one.string, one.wantedHertz);
  return state.queue.slice(own + 1).flatMap((by) => {
    const gain = planned[by]?.gainNewtons ?? 0;
    if (by === place || gain === 0) return [];
    const gained = state.strings.map((_, other) => (other === by ? gain : 0));
    const shift = expectedShift(state.coupling, place, newtons, gained);
    const { course, string } = stringAt(state.strings, by);
    return Math.abs(shift.cents) < leastPullCents ? [] : [{ course, string, cents: shift.cents }];
  });
}
