import { learnString, type RetuneLog } from '#shared/settling/index.ts';
import { centsBetween, hertz } from '#shared/units/index.ts';
import { assumedCoupling, type Coupling, expectedShift, hearShift } from './coupling.ts';
import { type Drift, driftOf } from './drift.ts';
import { pullNewtons, stiffnessOf } from './pull.ts';
import type { CoachString, LearnedRetune, Setup } from './setup.ts';

type Place = { readonly course: number; readonly string: number };

/** What is known of an instrument from its earlier retunes: how its strings pull at one another, and how each creeps, string by string from the player's eye down. */
export type Lessons = { readonly coupling: Coupling; readonly drifts: readonly Drift[] };

/**
 * Learns from the earlier retunes of a string set; by far the longest part of beginning a retune. The lessons hold for every tuning of that set, until
 * another retune is logged or some minutes have passed (strings get older): `const lessons = learn(setup)`, then `start(setup, lessons)` as often as wanted.
 */
export function learn(setup: Omit<Setup, 'present'>): Lessons {
  const places = setup.wanted.flatMap((strings, course) => strings.map((_, string) => ({ course, string })));
  const facts = places.map(({ course, string }) => setup.instrument.courses[course]?.strings[string] ?? unknownString);
  const coupling = learnCoupling(setup, places, assumedCoupling(facts.map(stiffnessOf)));
  return { coupling, drifts: facts.map((string, place) => learnDrift(setup, places, place, string, coupling)) };
}

const unknownString: CoachString = { material: 'nylon', wound: false, daysSinceChange: null, linearDensityKilogramsPerMetre: null };

type Known = Omit<Setup, 'present'>;

/** Creep between two readings is known no better than this, as a sigma in cents for each semitone turned lately. */
const creepSigmaCents = 0.8;
/** A wait this long between two readings lets weather and playing in: they tell nothing of the pegs. */
const longestGapSeconds = 600;

/** Newtons that each place gained by the turns between two moments of a retune. */
const gainedBetween = (
  setup: Known,
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

const newtonsOf = (setup: Known, { course, string }: Place, ended: number | undefined, cents: number): number =>
  ended === undefined ? 0 : pullNewtons(setup, course, string, ended) * (1 - 2 ** (-cents / 600));

/** The belief after every pair of readings of one string between which others were turned and it was not. */
function learnCoupling(setup: Known, places: readonly Place[], assumed: Coupling): Coupling {
  return (setup.learned?.retunes ?? []).reduce(
    (coupling, retune) => places.reduce((belief, _, of) => learnRow(setup, places, retune, of, belief), coupling),
    assumed,
  );
}

function learnRow(setup: Known, places: readonly Place[], retune: LearnedRetune, of: number, assumed: Coupling): Coupling {
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
function learnDrift(setup: Known, places: readonly Place[], of: number, string: CoachString, coupling: Coupling): Drift {
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
