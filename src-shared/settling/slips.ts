import { driftSpreads, type LawBelief, type StringKnowledge } from './hypotheses.ts';
import { movementHeard, type Step } from './layout.ts';
import { column, fitSession, logSum, type Candidate, type Session } from './posterior.ts';
import type { Slip } from './types.ts';
import { beyondWeather } from './weather.ts';

// A slip is a step between two readings that creep, drift and bad readings explain far worse. It needs two readings on either side.

const sharesSeeking = [
  { factor: 1, share: 0.6 },
  { factor: 1.6, share: 0.25 },
  { factor: 2.4, share: 0.15 },
];
const slipSpreadCents = 15;
/** How often a session has a smaller step, and its standard deviation (assumed). */
const smallStepShare = 0.2;
const smallStepSpreadCents = 3;
const notWorthIt = 3.5;
/** The log of how much better a slip must explain the readings (prior odds of a slip at any one place included). */
const logBurden = 2.7;
/** The more a string creeps, the more its own law departs from the listed ones: further burden for each cent of movement heard. */
const logBurdenPerCent = 0.03;
/** With only two readings before it, one bad reading among them makes a slip: it has to explain that much more. */
const logEarlyBurden = 1.5;
const smallestSlipCents = 4;
const smallestSlipSigmas = 4;
/** Of places that explain the readings about as well, the latest is taken: a bad reading just before a slip looks like part of it. */
const asGood = 1;
const mostSteps = 4;
const placesConsidered = 3;

/** The session with its slips as steps, and the slips. */
export interface Found {
  readonly session: Session;
  readonly slips: readonly Slip[];
}

const evidenceOf = (candidates: readonly Candidate[]): number => logSum(candidates.map(({ logEvidence }) => logEvidence));

/** Finds slips one after another, the clearest first, until no further one pays for itself. */
export function findSlips(session: Session, knowledge: StringKnowledge): Found {
  const laws = likeliestOfEachFamily(knowledge);
  const plain = laws.slice(0, 1);
  const present = session.stretches.at(-1);
  const burden = logBurden + logBurdenPerCent * (present === undefined ? 0 : movementHeard(present.readings));
  let places: readonly Place[] = [];
  let candidates: readonly Candidate[] = [];
  for (let round = 0; round < mostSteps; round += 1) {
    const quickly = (tried: Session) => evidenceOf(fitSession(tried, plain, sharesSeeking.slice(0, 1), driftSpreads.slice(0, 1)));
    const bar = quickly(withSteps(session, places)) + burden / 2;
    const promising = trialsOf(session, places)
      .map((tried) => ({ tried, log: quickly(withSteps(session, tried)) }))
      .filter(({ log }) => log > bar)
      .sort((a, b) => b.log - a.log)
      .slice(0, placesConsidered);
    if (promising.length === 0) break;
    // Later rounds start from what the round before has fitted.
    if (round === 0) candidates = fitSession(session, laws, sharesSeeking);
    const before = evidenceOf(candidates);
    const trials = promising
      .map(({ tried }) => {
        const fitted = fitSession(withSteps(session, tried), laws, sharesSeeking);
        const newest = tried.at(-1);
        return { tried, fitted, newest, gain: evidenceOf(fitted) - before - (newest?.isEarly === true ? logEarlyBurden : 0) };
      })
      .sort((a, b) => (b.newest?.atSeconds ?? 0) - (a.newest?.atSeconds ?? 0));
    const most = Math.max(...trials.map(({ gain }) => gain));
    const best = trials.find(({ gain }) => gain > most - asGood);
    if (best === undefined || most < burden) break;
    places = best.tried;
    candidates = best.fitted;
  }
  const found = withSteps(session, places);
  const slips = [...largeOf(found, { places, candidates }, session.steps.length), ...slipsOverGaps(found, laws)];
  return { session: found, slips: slips.sort((a, b) => a.atSeconds - b.atSeconds) };
}

/** What may be tried next: one more step; or, where one stands amid the few readings between two slips, a step on either side of it in its place. */
function trialsOf(session: Session, places: readonly Place[]): readonly (readonly Place[])[] {
  const one = placesIn(withSteps(session, places)).map((place) => [...places, place]);
  const two = places.flatMap((place, index) => {
    const others = places.toSpliced(index, 1);
    const free = placesIn(withSteps(session, others));
    const at = free.findIndex(({ atSeconds }) => atSeconds === place.atSeconds);
    const [before, after] = [free[at - 1], free[at + 1]];
    return before === undefined || after === undefined ? [] : [[...others, before, after]];
  });
  return [...one, ...two];
}

/** Those of the steps found that are large enough to be called slips; `before`: how many steps the session had already. */
function largeOf(
  session: Session,
  { places, candidates }: { readonly places: readonly Place[]; readonly candidates: readonly Candidate[] },
  before: number,
): readonly Slip[] {
  return places.flatMap(({ atSeconds, sigmaCents }, index) => {
    const at = column.step(session, before + index);
    const cents = candidates.reduce((sum, c) => sum + c.weight * (c.belief.mean[at] ?? 0), 0);
    const sigma = likeliestFactor(candidates) * sigmaCents;
    return Math.abs(cents) >= Math.max(smallestSlipCents, smallestSlipSigmas * sigma) ? [{ atSeconds, cents }] : [];
  });
}

/** One law of each family, the likeliest first: enough to tell a step from creep. */
function likeliestOfEachFamily({ laws }: StringKnowledge): readonly LawBelief[] {
  const ranked = [...laws].sort((a, b) => b.logWeight - a.logWeight);
  return ranked.filter(({ listed }, index) => ranked.findIndex((other) => other.listed.family === listed.family) === index);
}

/** How far the readings spread over what they claim, as the likeliest of the factors tried. */
function likeliestFactor(candidates: readonly Candidate[]): number {
  const weightOf = (factor: number) => candidates.reduce((sum, c) => (c.sigmaFactor === factor ? sum + c.weight : sum), 0);
  return sharesSeeking.reduce((most, { factor }) => (weightOf(factor) > weightOf(most) ? factor : most), 1);
}

/** Steps between two sittings that are more than weather does, with two readings or more since. */
function slipsOverGaps(session: Session, laws: readonly LawBelief[]): readonly Slip[] {
  if (session.steps.every(({ cause }) => cause !== 'weather')) return [];
  const candidates = fitSession(session, laws, sharesSeeking);
  return session.steps.flatMap((step, index) => {
    const at = column.step(session, index);
    const cents = candidates.reduce((sum, c) => sum + c.weight * (c.belief.mean[at] ?? 0), 0);
    const since = session.stretches.flatMap(({ readings }) => readings).filter(({ atSeconds }) => atSeconds >= step.atSeconds).length;
    const slip = { atSeconds: step.atSeconds, cents };
    return step.cause === 'weather' && since > 1 && beyondWeather(slip, step) ? [slip] : [];
  });
}

interface Place {
  readonly atSeconds: number;
  readonly sigmaCents: number;
  /** Only two readings of the stretch come before it. */
  readonly isEarly: boolean;
}

/** Where a slip may be: between two readings of one stretch, two readings on either side, no other step there. */
function placesIn({ stretches, steps }: Session): readonly Place[] {
  return stretches.flatMap(({ readings }) =>
    readings.slice(2, -1).flatMap(({ atSeconds }, index) => {
      const around = readings.slice(index, index + 4);
      const sigmas = around.map(({ sigmaCents }) => sigmaCents).sort((a, b) => a - b);
      const taken = steps.some((step) => around.slice(1).some((near) => near.atSeconds === step.atSeconds));
      return taken ? [] : [{ atSeconds, sigmaCents: ((sigmas[1] ?? 1) + (sigmas[2] ?? 1)) / 2, isEarly: index === 0 }];
    }),
  );
}

const withSteps = (session: Session, places: readonly Place[]): Session => places.reduce((tried, place) => withStep(tried, place), session);

const withStep = (session: Session, { atSeconds }: Pick<Place, 'atSeconds'>, spreadCents = slipSpreadCents): Session => {
  const step: Step = { cause: 'slip', atSeconds, meanCents: 0, spreadCents };
  return { ...session, steps: [...session.steps, step] };
};

/**
 * The session as it would be with a step too small to be called a slip (a hard bend, a knock), where it fits best, and the logarithm of how
 * likely such a step is there before it is looked at. Null where it would make no difference.
 */
export function withSmallStep(
  session: Session,
  knowledge: StringKnowledge,
): { readonly session: Session; readonly logPrior: number } | null {
  const law = knowledge.laws.reduce((most, one) => (one.logWeight > most.logWeight ? one : most));
  const quickly = (tried: Session) => evidenceOf(fitSession(tried, [law], sharesSeeking.slice(0, 1), driftSpreads.slice(0, 1)));
  const places = placesIn(session);
  const logPrior = Math.log(smallStepShare / places.length);
  const tried = places
    .map((place) => withStep(session, place, smallStepSpreadCents))
    .map((stepped) => ({ stepped, log: quickly(stepped) }));
  const best = tried.reduce<(typeof tried)[number] | null>((most, one) => (most === null || one.log > most.log ? one : most), null);
  if (best === null || best.log + logPrior < quickly(session) - notWorthIt) return null;
  return { session: best.stepped, logPrior };
}
