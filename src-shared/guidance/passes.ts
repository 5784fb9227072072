import { moveOrder } from '#shared/tunings/index.ts';
import { centsBetween, hertz } from '#shared/units/index.ts';
import { leadOf } from './aims.ts';
import { expectedOffset } from './standing.ts';
import type { CoachState, StringState } from './state.ts';

/** How far a string is from its aim, in cents; positive = tighten. */
export const centsToGo = (state: StringState): number => centsBetween(hertz(state.aimHertz), hertz(state.presentHertz));

/** Two moves this near to one another in size may change places for the sake of the neck, in cents. */
const alikeCents = 50;
/** A string is heard again where the chance that it has left its tolerance is greater than this. */
const acceptedRisk = 0.01;
/** A string that has landed so often is left alone: what still carries it is not for a peg to cure. */
const mostLandings = 6;

/** The first pass: every string known to be out of tolerance, loosening first, and sides in turn so that the neck is loaded evenly. */
export function firstPass(strings: readonly StringState[], toleranceCents: number): readonly number[] {
  const left = [...moveOrder(strings.map((one) => (Math.abs(centsToGo(one)) > toleranceCents ? centsToGo(one) : 0)))];
  const order: number[] = [];
  let torque = 0;
  const twist = (place: number): number => centsTo(strings, place) * (place - (strings.length - 1) / 2);
  while (left.length > 0) {
    const [first = 0] = left;
    const alike = left.filter((place) => areAlike(centsTo(strings, first), centsTo(strings, place)));
    const next = alike.reduce(
      (best, place) => (Math.abs(torque + twist(place)) < Math.abs(torque + twist(best)) - 1 ? place : best),
      first,
    );
    torque += twist(next);
    order.push(next);
    left.splice(left.indexOf(next), 1);
  }
  return order;
}

const centsTo = (strings: readonly StringState[], place: number): number => {
  const one = strings[place];
  return one === undefined ? 0 : centsToGo(one);
};

const areAlike = (a: number, b: number): boolean => Math.sign(a) === Math.sign(b) && Math.abs(a - b) < alikeCents;

/** The pass after: every string that has not been heard in its place, or that may well have left it since. Empty when the instrument is ready. */
export function nextPass(state: CoachState): readonly number[] {
  const risks = state.strings.map((one, place) => {
    if (one.skipped || one.landings >= mostLandings) return 0;
    return one.landedAtSeconds === null ? 1 : riskOfLeaving(state, one, place);
  });
  return risks
    .map((risk, place) => ({ risk, place }))
    .filter(({ risk }) => risk > acceptedRisk)
    .sort((a, b) => b.risk - a.risk || a.place - b.place)
    .map(({ place }) => place);
}

/** Whether a string was heard in its place and no other peg has been turned since. */
export const isUntouched = ({ landedAtSeconds, standing }: StringState): boolean =>
  landedAtSeconds !== null && standing.gainedNewtons.every((gained) => gained === 0);

/** The chance that a string is out of tolerance by now. */
function riskOfLeaving(state: CoachState, one: StringState, place: number): number {
  const { cents, variance } = expectedOffset(state, place, state.nowSeconds);
  const off = cents - leadOf(state, one, 0);
  const sigma = Math.sqrt(variance);
  const { toleranceCents } = state.setup;
  // It was surely inside when it landed: to hear it once more would tell the same, unless it has crept out since.
  if (isUntouched(one)) return Math.abs(off) > toleranceCents ? 1 : 0;
  return beyond((toleranceCents - off) / sigma) + beyond((toleranceCents + off) / sigma);
}

/** The share of a normal distribution beyond z sigmas: Abramowitz and Stegun 1964, 26.2.17 (error below 1e-7). */
function beyond(z: number): number {
  if (z < 0) return 1 - beyond(-z);
  const t = 1 / (1 + 0.231_641_9 * z);
  const sum = t * (0.319_381_53 + t * (-0.356_563_782 + t * (1.781_477_937 + t * (-1.821_255_978 + t * 1.330_274_429))));
  return (Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)) * sum;
}
