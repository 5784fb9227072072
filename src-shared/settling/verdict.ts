import { median } from 'simple-statistics';
import { nextCheck } from './check.ts';
import { strainsOf } from './creep.ts';
import { holdsFrom } from './holds.ts';
import { stretchesOf } from './layout.ts';
import type { Lesson } from './learning.ts';
import { commonDrift, couplingSteps } from './neighbours.ts';
import { outlookOn, type Outlook } from './outlook.ts';
import type { Session } from './posterior.ts';
import { findSlips, withSmallStep } from './slips.ts';
import { thin } from './thin.ts';
import type { Assessment, Policy, StringLog, Verdict } from './types.ts';
import { sittings } from './weather.ts';
import { why } from './why.ts';

const slideCentsPerHour = 12;
const slideCertainty = 0.4;
const smallestSlideCents = 3.5;
/** A slip is over when this many readings since then show creep alone. */
const calmReadings = 4;
const usualSigmaCents = 1;
const keeping = { newest: 12, groups: 18 };

/** One string to be judged, with its neighbours and what its past taught. */
export interface Case {
  readonly course: StringLog;
  readonly others: readonly StringLog[];
  readonly lesson: Lesson;
  readonly nowSeconds: number;
  readonly policy: Policy;
}

/** Judges one string. */
export function assessString({ course, others, lesson, nowSeconds, policy }: Case): Assessment {
  const readings = course.readings.filter(({ atSeconds }) => atSeconds <= nowSeconds);
  const moves = course.moves.filter(({ atSeconds }) => atSeconds <= nowSeconds);
  const movedAt = moves.at(-1)?.atSeconds ?? readings[0]?.atSeconds ?? nowSeconds;
  const heard = readings.filter(({ atSeconds }) => atSeconds >= movedAt);
  const { session, slips } = findSlips(sessionOf({ ...course, moves, readings }, others, nowSeconds), lesson.knowledge);
  const outlook = outlookOn(session, lesson.knowledge, withSmallStep(session, lesson.knowledge));

  const now = outlook.pitchAt(nowSeconds);
  const end = outlook.pitchAt(nowSeconds + policy.horizonSeconds);
  const drift = outlook.movement(nowSeconds, nowSeconds + policy.horizonSeconds);
  const slide = slideOf(outlook, heard.at(0)?.atSeconds ?? nowSeconds, heard.at(-1)?.atSeconds ?? nowSeconds);
  const slipCount = slips.length + lesson.slips.slice(-2).flat().length;
  const keepsSlipping = slide !== null || slipCount >= 2;
  const holdsFromSeconds = holdsFrom(outlook, policy, nowSeconds);
  const inside = Math.abs(now.cents) <= policy.toleranceCents;
  const holds = holdsFromSeconds === nowSeconds && inside && Math.abs(end.cents) <= policy.toleranceCents;
  const slip = slips.at(-1) ?? null;
  const restless =
    slip !== null && (keepsSlipping || readings.filter(({ atSeconds }) => atSeconds >= slip.atSeconds).length < calmReadings);
  const verdict = verdictOf(heard.length, slide !== null || restless, holds);
  const sigma = heard.length > 0 ? median(heard.slice(-12).map(({ sigmaCents }) => sigmaCents)) : usualSigmaCents;
  const holdsInSeconds = holdsFromSeconds === null ? null : holdsFromSeconds - nowSeconds;
  return {
    verdict,
    forecast: outlook.pitchAt,
    holdsFromSeconds,
    slips,
    keepsSlipping,
    nextCheckSeconds: verdict === 'unheard' ? nowSeconds : nextCheck(outlook, policy, movedAt, nowSeconds, sigma),
    why: why({
      verdict,
      policy,
      isTurned: moves.length > 0,
      now,
      drift,
      holdsInSeconds,
      slip,
      slipCount,
      keepsSlipping,
      slideCentsPerHour: slide,
    }),
    driftCents: drift.cents,
    insideTolerance: verdict === 'unheard' ? null : inside,
  };
}

const verdictOf = (heard: number, slipping: boolean, holding: boolean): Verdict => {
  if (heard === 0) return 'unheard';
  if (slipping) return 'slipping';
  return holding ? 'holding' : 'settling';
};

function sessionOf(course: StringLog, others: readonly StringLog[], nowSeconds: number): Session {
  const { moves, past, string } = course;
  const otherTurns = others.flatMap((other) => other.moves.map(({ atSeconds }) => atSeconds));
  const { readings: kept, gaps } = sittings(course.readings);
  const breaks = [...moves, ...gaps].map(({ atSeconds }) => atSeconds);
  const readings = thin(
    kept,
    [...breaks, ...otherTurns].sort((a, b) => a - b),
    keeping,
  );
  // A string that this retune leaves alone is where it was left when the last peg was turned.
  const began = otherTurns.reduce((latest, at) => (at <= nowSeconds ? Math.max(latest, at) : latest), Number.NEGATIVE_INFINITY);
  const everyMove = [...past.slice(-12).flatMap((retune) => retune.moves), ...moves];
  return {
    stretches: stretchesOf(moves, readings, Number.isFinite(began) ? began : nowSeconds),
    steps: [...couplingSteps(readings, others), ...gaps],
    strains: strainsOf(everyMove, string, nowSeconds, moves[0]?.atSeconds ?? readings[0]?.atSeconds ?? nowSeconds),
    common: commonDrift(others, nowSeconds),
    nowSeconds,
  };
}

/** Cents per hour flat of a slide that does not slow; null where there is none worth the name. */
function slideOf(outlook: Outlook, fromSeconds: number, untilSeconds: number): number | null {
  const { centsPerHour, shareBelow } = outlook.drift(-slideCentsPerHour);
  const slid = (-centsPerHour * (untilSeconds - fromSeconds)) / 3600;
  return shareBelow >= slideCertainty && slid >= smallestSlideCents ? -centsPerHour : null;
}
