import { putOnSeconds, strainsOf } from './creep.ts';
import { assumedFreedom, assumedKnowledge, type StringKnowledge } from './hypotheses.ts';
import { stretchesOf } from './layout.ts';
import { fitSession, logSum, type Session } from './posterior.ts';
import { findSlips } from './slips.ts';
import { thin } from './thin.ts';
import { sittings } from './weather.ts';
import type { Move, RetuneLog, Slip, StringFacts } from './types.ts';
import { mixedVector, scaledBy, whitened } from './whitened.ts';

// What a string's earlier retunes teach: each one's posterior is the next one's prior, loosened a little in between.

const rememberedRetunes = 8;
const keeping = { newest: 4, groups: 10 };
/** How much the rate differs from one retune of a string to the next, as a share of it (assumed). */
const retuneDeviation = 0.05;
/** How much it differs from one string to the next in the same place (assumed). */
const stringDeviation = 0.4;
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
  const learnMore = ({ knowledge, slips }: Lesson, retune: RetuneLog): Lesson => {
    const session = pastSession(retune, moves, string, nowSeconds);
    if (session === null) return { knowledge, slips: [...slips, []] };
    const found = findSlips(session, knowledge);
    return { knowledge: learnFrom(knowledge, found.session), slips: [...slips, found.slips] };
  };
  const putOn = putOnSeconds(string, nowSeconds);
  const beganAt = ({ moves, readings }: RetuneLog) => moves[0]?.atSeconds ?? readings[0]?.atSeconds ?? nowSeconds;
  const own = recent.filter((retune) => beganAt(retune) >= putOn);
  const ofEarlierString = recent.slice(0, recent.length - own.length);
  const before = ofEarlierString.reduce(learnMore, { knowledge: assumedKnowledge(string), slips: [] });
  const begun = ofEarlierString.length === 0 ? before : { ...before, knowledge: asOfAnother(before.knowledge) };
  return own.reduce(learnMore, begun);
}

/** What a string's forerunner in the same place taught, loosened: it is another string, if of the same kind. */
const asOfAnother = (knowledge: StringKnowledge): StringKnowledge => ({
  ...knowledge,
  retunes: 0,
  laws: knowledge.laws.map((belief) => ({
    ...belief,
    creep: scaledBy(belief.creep, stringDeviation),
    freedom: assumedFreedom,
  })),
});

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

/** The knowledge after one session. */
function learnFrom(knowledge: StringKnowledge, session: Session): StringKnowledge {
  const candidates = fitSession(session, knowledge.laws);
  const laws = knowledge.laws.map((belief, index) => {
    const own = candidates.filter(({ lawIndex }) => lawIndex === index);
    const share = own.reduce((sum, { weight }) => sum + weight, 0) || 1e-12;
    const told = logSum(own.map(({ logEvidence }) => logEvidence)) - belief.logWeight;
    const logWeight = belief.logWeight + lawTrust * told;
    if (!(share > 1e-9)) return { ...belief, logWeight };
    const mixture = own.map((candidate) => ({ ...candidate, weight: candidate.weight / share }));
    return {
      ...belief,
      logWeight,
      creep: scaledBy(mixedVector(whitened(belief.creep), mixture), retuneDeviation),
      freedom: learnedFreedom,
    };
  });
  const total = logSum(laws.map(({ logWeight }) => logWeight));
  return { ...knowledge, retunes: knowledge.retunes + 1, laws: laws.map((l) => ({ ...l, logWeight: l.logWeight - total })) };
}
