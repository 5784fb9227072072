import { latestRetune, leaveOrTakeHome, type Policy, type Tonight } from '#shared/settling/index.ts';
import { centsBetween, hertz } from '#shared/units/index.ts';
import { settleSeconds, type StringLesson } from './lessons.ts';

// Forecasts run backwards: by when to retune, and whether to go home tonight. Seconds are of the epoch.

/** What each string is to do: where it is and where it is to go, in hertz per course and string. */
type Way = {
  readonly lessons: readonly StringLesson[];
  readonly present: readonly (readonly number[])[];
  readonly wanted: readonly (readonly number[])[];
  readonly policy: Policy;
  readonly nowSeconds: number;
};

/** How far a string has to be turned, in cents; 0 where it is near enough to stay. */
function centsToGo({ present, wanted, policy }: Way, { course, string }: StringLesson): number {
  const [from, to] = [present[course]?.[string], wanted[course]?.[string]];
  if (from === undefined || to === undefined) return 0;
  const cents = centsBetween(hertz(to), hertz(from));
  return Math.abs(cents) <= policy.toleranceCents ? 0 : cents;
}

/** The latest moment for a retune that is to hold by another; or, where it is too late, from when it would hold if it began now (null = not within 30 days). */
export type RetuneBy =
  | { readonly kind: 'by'; readonly atSeconds: number }
  | { readonly kind: 'too-late'; readonly holdsFromSeconds: number | null }
  | { readonly kind: 'nothing-to-turn' };

/** By when to go a way so that every string holds at a moment. Throws RangeError where that lies before now. */
export function retuneBy(way: Way, holdAtSeconds: number): RetuneBy {
  const { lessons, policy, nowSeconds } = way;
  const turned = lessons.map((one) => ({ one, cents: centsToGo(way, one) })).filter(({ cents }) => cents !== 0);
  if (turned.length === 0) return { kind: 'nothing-to-turn' };
  const strings = turned.map(({ one, cents }) => ({ lesson: one.lesson, moves: one.turns, cents }));
  const atSeconds = latestRetune(strings, { nowSeconds, holdAtSeconds, policy });
  if (atSeconds !== null) return { kind: 'by', atSeconds };
  const settle = turned.map(({ one, cents }) => settleSeconds(one, { atSeconds: nowSeconds, cents }, policy));
  return { kind: 'too-late', holdsFromSeconds: settle.includes(null) ? null : nowSeconds + Math.max(...settle.map((s) => s ?? 0)) };
}

/** Whether to go home (`wanted`) now or only when it is wanted there; null where every string is home already. */
export function leaveIt(way: Way, wantedSeconds: number): Tonight | null {
  const away = way.lessons.map((one) => ({ lesson: one.lesson, moves: one.turns, homeCents: centsToGo(way, one) }));
  if (away.every(({ homeCents }) => homeCents === 0)) return null;
  return leaveOrTakeHome(away, { nowSeconds: way.nowSeconds, wantedSeconds, policy: way.policy });
}
