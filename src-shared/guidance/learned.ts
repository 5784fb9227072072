import { learnString, type RetuneLog } from '#shared/settling/index.ts';
import { centsBetween, hertz } from '#shared/units/index.ts';
import { type Coupling, expectedShift, hearShift } from './coupling.ts';
import { type Drift, driftOf } from './drift.ts';
import { pullNewtons } from './pull.ts';
import type { CoachString, Setup } from './state.ts';

type Place = { readonly course: number; readonly string: number };

/** An earlier retune as the log has it. `cents` of a turn: how far it took its string; positive = tightened. */
export type LearnedRetune = {
  readonly startedAtSeconds: number;
  readonly wanted: readonly (readonly number[])[];
  readonly turns: readonly (Place & { readonly atSeconds: number; readonly cents: number })[];
  readonly readings: readonly (Place & { readonly atSeconds: number; readonly hertz: number; readonly sigmaCents: number })[];
};

/** What the coach may learn from: earlier retunes of this string set, oldest first. */
export type Learned = { readonly retunes: readonly LearnedRetune[] };

/** Creep between two readings is known no better than this, as a sigma in cents for each semitone turned lately. */
const creepSigmaCents = 0.8;
/** A wait this long between two readings lets weather and playing in: they tell nothing of the pegs. */
const longestGapSeconds = 600;

/** Newtons that each place gained by the turns between two moments of a retune. */
const gainedBetween = (
  setup: Setup,
  places: readonly Place[],
  { turns, wanted }: LearnedRetune,
  from: number,
  until: number,
): readonly number[] =>
  places.map(({ course, string }) =>
    turns
      .filter((turn) => turn.course === course && turn.string === string && turn.atSeconds > from && turn.atSeconds <= until)
      .reduce((sum, { cents }) => sum + newtonsOf(setup, { course, string }, wanted[course]?.[string], cents), 0),
  );

const newtonsOf = (setup: Setup, { course, string }: Place, ended: number | undefined, cents: number): number =>
  ended === undefined ? 0 : pullNewtons(setup, course, string, ended) * (1 - 2 ** (-cents / 600));

/** The belief after every pair of readings of one string between which others were turned and it was not. */
export function learnCoupling(setup: Setup, places: readonly Place[], assumed: Coupling): Coupling {
  return (setup.learned?.retunes ?? []).reduce(
    (coupling, retune) => places.reduce((belief, _, of) => learnRow(setup, places, retune, of, belief), coupling),
    assumed,
  );
}

function learnRow(setup: Setup, places: readonly Place[], retune: LearnedRetune, of: number, assumed: Coupling): Coupling {
  const place = places[of];
  if (place === undefined) return assumed;
  const mine = (row: Place): boolean => row.course === place.course && row.string === place.string;
  const readings = retune.readings.filter(mine);
  const turns = retune.turns.filter(mine);
  return readings.reduce((belief, later, index) => {
    const earlier = readings[index - 1];
    if (earlier === undefined || later.atSeconds - earlier.atSeconds > longestGapSeconds) return belief;
    if (turns.some(({ atSeconds }) => atSeconds > earlier.atSeconds && atSeconds <= later.atSeconds)) return belief;
    const gained = gainedBetween(setup, places, retune, earlier.atSeconds, later.atSeconds);
    const turned = turns.reduce((sum, { atSeconds, cents }) => sum + (atSeconds <= earlier.atSeconds ? Math.abs(cents) / 100 : 0), 0);
    const variance = earlier.sigmaCents ** 2 + later.sigmaCents ** 2 + (creepSigmaCents * turned) ** 2 + 0.1;
    const newtons = pullNewtons(setup, place.course, place.string, earlier.hertz);
    return hearShift(belief, of, { newtons, gained, cents: centsBetween(hertz(later.hertz), hertz(earlier.hertz)), variance });
  }, assumed);
}

/** What was learned of one string's creep. Where other pegs were turned after a reading, what they did is added to it first. */
export function learnDrift(setup: Setup, places: readonly Place[], of: number, string: CoachString, coupling: Coupling): Drift {
  const place = places[of];
  const retunes = setup.learned?.retunes ?? [];
  if (place === undefined) throw new RangeError(`no string at place ${of} of ${places.length}`);
  const mine = (row: Place): boolean => row.course === place.course && row.string === place.string;
  const past = retunes.map((retune): RetuneLog => {
    const wanted = retune.wanted[place.course]?.[place.string];
    const last = retune.turns.reduce((latest, { atSeconds }) => Math.max(latest, atSeconds), Number.NEGATIVE_INFINITY);
    const readings = retune.readings.filter(mine).map(({ atSeconds, hertz: heard, sigmaCents }) => {
      const gained = gainedBetween(setup, places, retune, atSeconds, last);
      const shift = expectedShift(coupling, of, pullNewtons(setup, place.course, place.string, heard), gained);
      const cents = (wanted === undefined ? 0 : centsBetween(hertz(heard), hertz(wanted))) + shift.cents;
      return { atSeconds, cents, sigmaCents: Math.sqrt(sigmaCents ** 2 + shift.variance) };
    });
    return { moves: retune.turns.filter(mine).map(({ atSeconds, cents }) => ({ atSeconds, cents })), readings };
  });
  const nowSeconds = setup.atSeconds;
  const recent = past.flatMap(({ moves }) => moves).filter(({ atSeconds }) => atSeconds > nowSeconds - rememberedSeconds);
  return driftOf(learnString({ string, past, nowSeconds }), nowSeconds, recent);
}

const rememberedSeconds = 4 * 86_400;
