import { atCents, cents, centsBetween, hertz } from '#shared/units/index.ts';
import { expectedShift, type Expected, hearShift } from './coupling.ts';
import { driftBetween } from './drift.ts';
import { pullNewtons } from './pull.ts';
import type { Setup } from './setup.ts';
import type { CoachState, Standing, StringState } from './state.ts';

type Known = Pick<CoachState, 'setup' | 'strings' | 'coupling'>;

/** How far a string may have moved since the log heard it last: weather, playing, creep of earlier days (assumed), as a sigma in cents. */
export const fromLogSigmaCents = 2;
/** Beside what a reading claims: how well it tells where the string stands, in cents. */
const restlessSigmaCents = 0.25;

/** How far from wanted a string is expected at a moment: where it was last trusted to be, what other pegs did since, and its creep. */
export function expectedOffset({ setup, strings, coupling }: Known, place: number, atSeconds: number): Expected {
  const { standing, wantedHertz, course, string, drift, moves } = stringAt(strings, place);
  const shift = expectedShift(coupling, place, pullNewtons(setup, course, string, standing.hertz), standing.gainedNewtons);
  const creep = driftBetween(drift, moves, standing.atSeconds, atSeconds);
  return {
    cents: centsBetween(hertz(standing.hertz), hertz(wantedHertz)) + shift.cents + creep.cents,
    variance: standing.sigmaCents ** 2 + shift.variance + creep.variance,
  };
}

/** The string at a place. Throws RangeError where there is none. */
export function stringAt(strings: readonly StringState[], place: number): StringState {
  const string = strings[place];
  if (string === undefined) throw new RangeError(`no string at place ${place} of ${strings.length}`);
  return string;
}

/** The string of a course, both from 0; undefined where there is none. */
export const stringNamed = (
  strings: readonly StringState[],
  { course, string }: { readonly course: number; readonly string: number },
): StringState | undefined => strings.find((one) => one.course === course && one.string === string);

/** A string was heard that was not turned since it was last trusted: what the other pegs did to it is learned. */
export function learnShift<State extends Known & { readonly nowSeconds: number }>(
  state: State,
  place: number,
  heard: { readonly atSeconds: number; readonly hertz: number; readonly sigmaCents: number },
): State {
  const { setup, strings, coupling } = state;
  const { standing, course, string, drift, moves } = stringAt(strings, place);
  const creep = driftBetween(drift, moves, standing.atSeconds, heard.atSeconds);
  const shift = {
    newtons: pullNewtons(setup, course, string, standing.hertz),
    gained: standing.gainedNewtons,
    cents: centsBetween(hertz(heard.hertz), hertz(standing.hertz)) - creep.cents,
    variance: standing.sigmaCents ** 2 + heard.sigmaCents ** 2 + creep.variance + restlessSigmaCents ** 2,
  };
  return { ...state, coupling: hearShift(coupling, place, shift) };
}

/** The string stands where it was heard; nothing has pulled at it since. */
export const standAt = (
  heard: { readonly atSeconds: number; readonly hertz: number; readonly sigmaCents: number },
  count: number,
): Standing => ({
  hertz: heard.hertz,
  sigmaCents: Math.hypot(heard.sigmaCents, restlessSigmaCents),
  atSeconds: heard.atSeconds,
  gainedNewtons: Array.from({ length: count }, () => 0),
});

/** A peg was turned: every other string has been pulled at, and is expected a little elsewhere. */
export function pullAtOthers(state: CoachState, turned: number, fromHertz: number, toHertz: number): CoachState {
  const gain = gainNewtons(state.setup, stringAt(state.strings, turned), fromHertz, toHertz);
  const pulled = state.strings.map((one, place) => {
    if (place === turned) return one;
    const gainedNewtons = one.standing.gainedNewtons.map((sum, by) => (by === turned ? sum + gain : sum));
    return { ...one, standing: { ...one.standing, gainedNewtons } };
  });
  const next = { ...state, strings: pulled };
  // A string that was heard since it was last trusted, on its way, is moved from where it was heard.
  const shift = (place: number): number =>
    expectedOffset(next, place, state.nowSeconds).cents - expectedOffset(state, place, state.nowSeconds).cents;
  const moved = (one: StringState, place: number): number => atCents(hertz(one.presentHertz), cents(shift(place)));
  return { ...next, strings: pulled.map((one, place) => (place === turned ? one : { ...one, presentHertz: moved(one, place) })) };
}

/** Newtons that a string gains on the way between two pitches. */
export const gainNewtons = (setup: Setup, { course, string }: StringState, fromHertz: number, toHertz: number): number =>
  pullNewtons(setup, course, string, toHertz) - pullNewtons(setup, course, string, fromHertz);
