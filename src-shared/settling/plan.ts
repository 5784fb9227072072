import { strainsOf } from './creep.ts';
import { holdsFrom } from './holds.ts';
import type { Lesson } from './learning.ts';
import { stretchesOf } from './layout.ts';
import { outlookOn, type Outlook } from './outlook.ts';
import type { Forecast, Move, Policy } from './types.ts';

/** A retune that is still to come: what was learned of the string, and every move that matters (past ones and planned ones, oldest first). */
export interface Plan {
  readonly lesson: Lesson;
  readonly moves: readonly Move[];
  /** The moment that the string's age counts up to. */
  readonly nowSeconds: number;
}

/** Fitting takes far longer than asking: a plan is fitted once, however many windows are asked of it. */
const fitted = new WeakMap<Plan, Outlook>();

/** What is expected after the last move of a plan, from which on nothing was heard. Asking again with the same plan costs no new fit. */
export function outlookOf(plan: Plan): Outlook {
  const known = fitted.get(plan);
  if (known !== undefined) return known;
  const outlook = fitPlan(plan);
  fitted.set(plan, outlook);
  return outlook;
}

function fitPlan({ lesson, moves, nowSeconds }: Plan): Outlook {
  const last = moves.at(-1)?.atSeconds ?? nowSeconds;
  const strains = strainsOf(moves, lesson.knowledge.string, nowSeconds, last);
  const still = { centsPerHour: 0, variance: 0 };
  return outlookOn(
    { stretches: stretchesOf(moves.slice(-1), [], last), steps: [], strains, common: still, nowSeconds: last },
    lesson.knowledge,
  );
}

/**
 * How far a string is expected to drift between two moments after a planned move, with its 90 % band: positive = sharp.
 * The mean is what a lead takes off; it is small while little is known and grows with use. Several windows of one plan object share one fit.
 * `expectedDriftCents(plan, { fromSeconds: 60, untilSeconds: 1860 }).cents` → −6.0 for a nylon string raised by two semitones at 0.
 */
export const expectedDriftCents = (
  plan: Plan,
  { fromSeconds, untilSeconds }: { readonly fromSeconds: number; readonly untilSeconds: number },
): Forecast => outlookOf(plan).movement(fromSeconds, untilSeconds);

/**
 * Seconds from the last move of the plan until the string moves no more than the tolerance within one horizon; null past 30 days.
 */
export function expectedSettleSeconds(plan: Plan, policy: Policy): number | null {
  const last = plan.moves.at(-1)?.atSeconds ?? plan.nowSeconds;
  const holds = holdsFrom(outlookOf(plan), policy, last);
  return holds === null ? null : holds - last;
}
