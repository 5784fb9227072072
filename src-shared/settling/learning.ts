import { strainsOf } from './creep.ts';
import { assumedKnowledge, type StringKnowledge } from './hypotheses.ts';
import { stretchesOf } from './layout.ts';
import { column, fitSession, logSum, type Candidate, type Session } from './posterior.ts';
import type { CreepRate } from './prior.ts';
import { findSlips } from './slips.ts';
import { thin } from './thin.ts';
import { sittings } from './weather.ts';
import type { Move, RetuneLog, Slip, StringFacts } from './types.ts';

// What a string's earlier retunes teach: each one's posterior is the next one's prior, loosened a little in between.

const rememberedRetunes = 8;
const keeping = { newest: 4, groups: 10 };
/** How much the rate differs from one retune of a string to the next, as a share of it (assumed). */
const retuneDeviation = 0.1;
/** Of the spread of a rate that was learned: nearly normal. */
const learnedFreedom = 20;
/** Evidence about the law is counted at this share, as no law of the list is the true one. */
const lawTrust = 0.7;

/** What the earlier retunes of a string taught, and the slips in them, one list a retune (the latest eight, oldest first). */
export interface Lesson {
  readonly knowledge: StringKnowledge;
  readonly slips: readonly (readonly Slip[])[];
}

/** Learns a string from its earlier retunes, oldest first. With none, what is assumed. */
export function learnString(asked: {
  readonly string: StringFacts;
  readonly past: readonly RetuneLog[];
  readonly nowSeconds: number;
}): Lesson {
  const { string, past, nowSeconds } = asked;
  const recent = past.slice(-rememberedRetunes);
  const moves = recent.flatMap((retune) => retune.moves);
  return recent.reduce<Lesson>(
    ({ knowledge, slips }, retune) => {
      const session = pastSession(retune, moves, string, nowSeconds);
      if (session === null) return { knowledge, slips: [...slips, []] };
      const found = findSlips(session, knowledge);
      return { knowledge: learnFrom(knowledge, found.session), slips: [...slips, found.slips] };
    },
    { knowledge: assumedKnowledge(string), slips: [] },
  );
}

function pastSession(retune: RetuneLog, moves: readonly Move[], string: StringFacts, nowSeconds: number): Session | null {
  const last = retune.readings.at(-1);
  if (last === undefined || retune.readings.length < 2) return null;
  const first = retune.moves[0]?.atSeconds ?? retune.readings[0]?.atSeconds ?? last.atSeconds;
  const { readings: kept, gaps } = sittings(retune.readings);
  const breaks = [...retune.moves, ...gaps].map(({ atSeconds }) => atSeconds).sort((a, b) => a - b);
  const readings = thin(kept, breaks, keeping);
  const strains = strainsOf(
    moves.filter(({ atSeconds }) => atSeconds <= last.atSeconds),
    string,
    nowSeconds,
    first,
  );
  return {
    stretches: stretchesOf(retune.moves, readings, first),
    steps: gaps,
    strains,
    common: { centsPerHour: 0, variance: 0 },
    nowSeconds: last.atSeconds,
  };
}

/** Mean and variance of one unknown over the candidates of a law, which have `share` of the weight. */
function marginal(candidates: readonly Candidate[], share: number, at: number): CreepRate {
  const mean = candidates.reduce((sum, c) => sum + (c.weight / share) * (c.belief.mean[at] ?? 0), 0);
  const variance = candidates.reduce((sum, { weight, belief }) => {
    const within = belief.covariance[at * (belief.mean.length + 1)] ?? 0;
    return sum + (weight / share) * (within + ((belief.mean[at] ?? 0) - mean) ** 2);
  }, 0);
  return { mean, variance };
}

/** The knowledge after one session. */
function learnFrom(knowledge: StringKnowledge, session: Session): StringKnowledge {
  const candidates = fitSession(session, knowledge.laws);
  const laws = knowledge.laws.map((belief, index) => {
    const own = candidates.filter(({ lawIndex }) => lawIndex === index);
    const share = own.reduce((sum, { weight }) => sum + weight, 0) || 1e-12;
    const rate = marginal(own, share, column.rate);
    const skew = marginal(own, share, column.skew);
    const told = logSum(own.map(({ logEvidence }) => logEvidence)) - belief.logWeight;
    const logWeight = belief.logWeight + lawTrust * told;
    if (!(share > 1e-9) || !(Math.abs(rate.mean) > 0)) return { ...belief, logWeight };
    return {
      ...belief,
      logWeight,
      rate: { mean: rate.mean, variance: rate.variance + (retuneDeviation * rate.mean) ** 2 },
      rateFreedom: learnedFreedom,
      skew: { mean: skew.mean / rate.mean, variance: skew.variance / rate.mean ** 2 },
    };
  });
  const total = logSum(laws.map(({ logWeight }) => logWeight));
  return { ...knowledge, retunes: knowledge.retunes + 1, laws: laws.map((l) => ({ ...l, logWeight: l.logWeight - total })) };
}
